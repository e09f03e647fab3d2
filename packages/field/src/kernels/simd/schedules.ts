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
  readonly thread: Local;
  readonly step: Local;
  readonly k: Local;
  readonly start: Local;
  readonly end: Local;
  readonly address: Local;
}

/** Each thread has a slab of planes; the body is run for each step, and what is handed to `finish` once at the end. */
function slabbed(
  { shape, threads }: AdvanceRequest,
  body: (locals: SlabLocals) => Code,
): { finish: (last: Code) => FunctionBody } {
  const writer = new FunctionWriter(2);
  const [thread, steps] = [writer.parameter(0), writer.parameter(1)];
  const local = () => writer.local('i32');
  const locals = { thread, step: local(), k: local(), start: local(), end: local(), address: local() };
  const share = (index: Code) => i32.divUnsigned(i32.mul(index, i32.of(shape.nz)), i32.of(threads));
  const finish = (last: Code) =>
    writer.finish([
      locals.start.set(share(thread.get)),
      locals.end.set(share(i32.add(thread.get, i32.of(1)))),
      forEach(locals.step, { from: i32.of(0), end: steps.get }, body(locals)),
      last,
    ]);
  return { finish };
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
  }).finish([]);
}

/**
 * E of a plane, then H of the plane below, while both are in the cache. At the border of two slabs, H of the last plane
 * below needs E of the first plane above, which in turn needs the old H: so that H is done last, when the slab above has
 * told that its first E is done, and the next E above waits until the slab below has told that its last H is done.
 */
function fused(request: AdvanceRequest): FunctionBody {
  const { shape, planes, waiting } = request;
  const body = slabbed(request, ({ thread, step, k, start, end, address }) => {
    const below = i32.sub(k.get, i32.of(1));
    const { meetBelow, tellBelow, meetAbove, tellAbove } = meetSlabs(request, { thread, step, address });
    return [
      meetBelow,
      wholePlane(planes.electric, start.get, step, shape),
      tellBelow,
      forEach(k, { from: i32.add(start.get, i32.of(1)), end: end.get }, [
        // One row more, because H lags one behind.
        call(planes.both, k.get, i32.of(0), i32.of(shape.ny + 1), step.get),
      ]),
      meetAbove,
      wholePlane(planes.magnetic, below, step, shape),
      tellAbove,
    ];
  });
  return body.finish(waiting?.barrier ?? []);
}

type SlabWaits = Readonly<Record<'meetBelow' | 'tellBelow' | 'meetAbove' | 'tellAbove', Code>>;

/** Two words for each slab: the steps for which its first E, and its last H, are done. */
function meetSlabs(
  { control, waiting, threads }: AdvanceRequest,
  { thread, step, address }: Pick<SlabLocals, 'thread' | 'step' | 'address'>,
): SlabWaits {
  if (!waiting) return { meetBelow: [], tellBelow: [], meetAbove: [], tellAbove: [] };
  const word = (ofThread: Code, which: 0 | 1) =>
    i32.add(i32.mul(ofThread, i32.of(2 * LINE)), i32.of(control.progress + which * LINE));
  const one = i32.of(1);
  const done = i32.add(step.get, one);
  const tell = (which: 0 | 1) => [address.set(word(thread.get, which)), waiting.raise(address, done)];
  const isLast = i32.equal(thread.get, i32.of(threads - 1));
  return {
    meetBelow: when(thread.get, waiting.atLeast(word(i32.sub(thread.get, one), 1), step.get)),
    tellBelow: tell(0),
    meetAbove: when(i32.isZero(isLast), waiting.atLeast(word(i32.add(thread.get, one), 0), done)),
    tellAbove: tell(1),
  };
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
