import type { GridShape } from '../../kernel.ts';
import { type Control, LINE } from './control.ts';
import type { Code } from './emit/code.ts';
import { type FunctionBody, FunctionWriter, type Local } from './emit/function-writer.ts';
import { atomic, call, i32, min, when, whileLoop } from './emit/instructions.ts';
import type { PlaneFunctions } from './plane-function.ts';
import type { Schedule } from './schedule.ts';
import type { Waiting } from './waiting.ts';

export interface AdvanceRequest {
  readonly shape: GridShape;
  readonly schedule: Schedule;
  readonly planes: PlaneFunctions;
  readonly control: Control;
  readonly threads: number;
  /** Absent with one thread, which waits for nobody. */
  readonly waiting?: Waiting;
}

/** The function of (thread, steps) that runs the share of one thread in a batch. */
export function advanceFunction(request: AdvanceRequest): FunctionBody {
  switch (request.schedule.kind) {
    case 'two-pass':
      return twoPass(request);
    case 'fused':
      return fused(request);
    case 'blocked':
      return blocked({ ...request, ...request.schedule });
  }
}

/** Code that runs the body for index = from, from + 1, ..., end - 1. */
const forEach = (index: Local, { from, end }: { from: Code; end: Code }, body: Code): Code => [
  index.set(from),
  whileLoop(i32.lessSigned(index.get, end), [body, index.increase(1)]),
];

/** A plane function called for all rows. */
const wholePlane = (index: number, k: Code, step: Local, { ny }: GridShape): Code =>
  call(index, k, i32.of(0), i32.of(ny), step.get);

interface SlabLocals {
  readonly step: Local;
  readonly k: Local;
  readonly start: Local;
  readonly end: Local;
}

/** Each thread has a slab of planes; the body is run for each step. */
function slabbed({ shape, threads }: AdvanceRequest, body: (locals: SlabLocals) => Code): FunctionBody {
  const writer = new FunctionWriter(2);
  const [thread, steps] = [writer.parameter(0), writer.parameter(1)];
  const [step, k, start, end] = [0, 1, 2, 3].map(() => writer.local('i32')) as [Local, Local, Local, Local];
  const share = (index: Code) => i32.divUnsigned(i32.mul(index, i32.of(shape.nz)), i32.of(threads));
  return writer.finish([
    start.set(share(thread.get)),
    end.set(share(i32.add(thread.get, i32.of(1)))),
    forEach(step, { from: i32.of(0), end: steps.get }, body({ step, k, start, end })),
  ]);
}

/** All of E, then all of H. */
function twoPass(request: AdvanceRequest): FunctionBody {
  const { shape, planes, waiting } = request;
  const barrier = waiting?.barrier ?? [];
  return slabbed(request, ({ step, k, start, end }) => {
    const range = { from: start.get, end: end.get };
    return [
      forEach(k, range, wholePlane(planes.electric, k.get, step, shape)),
      barrier,
      forEach(k, range, wholePlane(planes.magnetic, k.get, step, shape)),
      barrier,
    ];
  });
}

/**
 * E of a plane, then H of the plane below, while both are in the cache. H of the topmost plane of a slab needs E of the
 * next slab, and E of the next slab's first plane needs the old H of this one: it is done last.
 */
function fused(request: AdvanceRequest): FunctionBody {
  const { shape, planes, waiting } = request;
  const barrier = waiting?.barrier ?? [];
  return slabbed(request, ({ step, k, start, end }) => {
    const below = i32.sub(k.get, i32.of(1));
    return [
      wholePlane(planes.electric, start.get, step, shape),
      forEach(k, { from: i32.add(start.get, i32.of(1)), end: end.get }, [
        // One row more, because H lags one behind.
        call(planes.both, k.get, i32.of(0), i32.of(shape.ny + 1), step.get),
      ]),
      barrier,
      wholePlane(planes.magnetic, below, step, shape),
      barrier,
    ];
  });
}

/** Tiles of at most so many rows, on average over the steps of a round. */
export const tileCount = (ny: number, { rows }: { rows: number }): number => Math.ceil(ny / rows);

interface BlockedRequest extends AdvanceRequest {
  readonly rows: number;
  readonly steps: number;
}

interface TileLocals {
  readonly round: Local;
  readonly tile: Local;
  readonly base: Local;
  readonly roundSteps: Local;
  readonly front: Local;
  readonly step: Local;
  readonly first: Local;
  readonly end: Local;
  readonly address: Local;
}

/**
 * Temporal blocking in place. A round is some steps; a tile is some rows of all planes for a whole round. Fronts run
 * through the planes: at front f, step s of the round updates E of plane f - s, then H of plane f - s - 1. Each step
 * shifts the rows of its tile down by one, because H needs E one row ahead and E needs H one row back: so a tile needs
 * only what the tile before it has finished at the same front, and leaves nothing behind that a later tile still reads.
 * Threads take tiles in turn.
 */
function blocked(request: BlockedRequest): FunctionBody {
  const { shape, steps: depth, control, waiting } = request;
  const writer = new FunctionWriter(2);
  const steps = writer.parameter(1);
  const [job, jobs] = [writer.local('i32'), writer.local('i32')];
  const names = ['round', 'tile', 'base', 'roundSteps', 'front', 'step', 'first', 'end', 'address'] as const;
  const locals = Object.fromEntries(names.map((name) => [name, writer.local('i32')])) as unknown as TileLocals;
  const { round, tile, base, roundSteps, first, end } = locals;
  const tiles = i32.of(tileCount(shape.ny, request));
  const rounds = i32.divUnsigned(i32.add(steps.get, i32.of(depth - 1)), i32.of(depth));
  const takeJob = waiting ? job.tee(atomic.add(i32.of(control.jobs), i32.of(1))) : job.tee(i32.add(job.get, i32.of(1)));
  return writer.finish([
    job.set(i32.of(-1)),
    jobs.set(i32.mul(rounds, tiles)),
    whileLoop(i32.lessSigned(takeJob, jobs.get), [
      round.set(i32.divUnsigned(job.get, tiles)),
      tile.set(i32.remUnsigned(job.get, tiles)),
      base.set(i32.mul(round.get, i32.of(depth))),
      roundSteps.set(min(i32.of(depth), i32.sub(steps.get, base.get))),
      first.set(tileStart(request, tile.get)),
      end.set(tileStart(request, i32.add(tile.get, i32.of(1)))),
      oneTile(request, locals),
    ]),
    waiting?.barrier ?? [],
  ]);
}

/**
 * First row of a tile at the first step of a round. All tiles do the same work in a round: neighbours run side by side, so
 * a short one would only wait. The first tile loses the rows that are shifted out of the grid, the last gains them.
 */
function tileStart({ shape, rows, steps }: BlockedRequest, tile: Code): Code {
  const tiles = tileCount(shape.ny, { rows });
  const inner = i32.add(i32.divUnsigned(i32.mul(tile, i32.of(shape.ny)), i32.of(tiles)), i32.of(steps >> 1));
  const outer = i32.select(i32.of(0), i32.of(shape.ny + steps), i32.isZero(tile));
  return i32.select(outer, inner, i32.isZero(i32.remUnsigned(tile, i32.of(tiles))));
}

function oneTile(request: BlockedRequest, locals: TileLocals): Code {
  const { shape, planes } = request;
  const { front, step, first, base, roundSteps } = locals;
  const k = i32.sub(front.get, step.get);
  const start = i32.sub(first.get, step.get);
  const end = i32.sub(locals.end.get, step.get);
  const now = i32.add(base.get, step.get);
  const fronts = i32.add(i32.of(shape.nz), roundSteps.get);
  const { before, ahead, after } = meetNeighbours(request, locals);
  return [
    before,
    forEach(front, { from: i32.of(0), end: fronts }, [
      ahead,
      forEach(step, { from: i32.of(0), end: roundSteps.get }, [call(planes.both, k, start, end, now)]),
      after,
    ]),
  ];
}

/**
 * How the threads of neighbouring tiles keep apart.
 * - Front f of a tile waits until the tile before it has finished that front.
 * - It also waits until the round before has left its rows and planes: those rows were last touched by a tile `reach`
 *   further, at front f + steps.
 * - A round starts when the one before the last is complete, so two sets of progress words are enough.
 */
function meetNeighbours(request: BlockedRequest, locals: TileLocals): { before: Code; ahead: Code; after: Code } {
  const { shape, steps: depth, control, waiting } = request;
  if (!waiting) return { before: [], ahead: [], after: [] };
  const { round, tile, front, address } = locals;
  const tiles = tileCount(shape.ny, request);
  const fullFronts = shape.nz + depth;
  const one = i32.of(1);
  const lastTile = i32.of(tiles - 1);
  const reach = Math.ceil(depth / Math.floor(shape.ny / tiles));
  const value = (ofRound: Code, fronts: Code) => i32.add(i32.mul(ofRound, i32.of(fullFronts + 1)), fronts);
  const word = (ofRound: Code, ofTile: Code) => {
    const set = i32.mul(i32.and(ofRound, one), i32.of(tiles));
    return i32.add(i32.mul(i32.add(set, ofTile), i32.of(LINE)), i32.of(control.progress));
  };
  const previous = i32.sub(round.get, one);
  const beforePrevious = i32.sub(round.get, i32.of(2));
  const done = i32.add(front.get, one);
  return {
    before: when(
      i32.greaterSigned(round.get, one),
      waiting.atLeast(word(round.get, lastTile), value(beforePrevious, i32.of(fullFronts))),
    ),
    ahead: [
      when(tile.get, waiting.atLeast(word(round.get, i32.sub(tile.get, one)), value(round.get, done))),
      when(
        round.get,
        waiting.atLeast(
          word(previous, min(i32.add(tile.get, i32.of(reach)), lastTile)),
          value(previous, min(i32.add(done, i32.of(depth)), i32.of(fullFronts))),
        ),
      ),
    ],
    after: [address.set(word(round.get, tile.get)), waiting.raise(address, value(round.get, done))],
  };
}
