import type { Point } from '../contour.ts';
import { distance, type Edge } from './edge.ts';
import { DrawingFault, placeText } from './fault.ts';

/** Ends this close are one point, mm: far below what any cutter holds. */
export const JOIN_MM = 0.001;

interface End {
  readonly edge: number;
  readonly at: Point;
  readonly isStart: boolean;
}

/** Ends of edges by raster cells, so that neighbours are found without looking at all of them. */
class EndRaster {
  readonly #cells = new Map<string, End[]>();
  constructor(ends: readonly End[]) {
    for (const end of ends) {
      const key = cellKey(cell(end.at.x), cell(end.at.y));
      this.#cells.set(key, [...(this.#cells.get(key) ?? []), end]);
    }
  }
  /** Other ends within the joining distance. */
  near({ at, edge, isStart }: End): readonly End[] {
    const found: End[] = [];
    for (const i of [-1, 0, 1])
      for (const j of [-1, 0, 1]) found.push(...(this.#cells.get(cellKey(cell(at.x) + i, cell(at.y) + j)) ?? []));
    return found.filter(
      (end) => !(end.edge === edge && end.isStart === isStart) && distance(end.at, at) <= JOIN_MM + 1e-12,
    );
  }
}

const cell = (value: number): number => Math.floor(value / (2 * JOIN_MM));
const cellKey = (i: number, j: number): string => `${i},${j}`;

/**
 * Joins loose edges into closed loops, whatever their order and direction.
 * Throws a DrawingFault for an end that meets nothing (with the gap and the place) or more than one other end.
 */
export function joinEdges(edges: readonly Edge[]): readonly (readonly Edge[])[] {
  const kept = edges.filter((edge) => distance(edge.from, edge.to) > JOIN_MM);
  const ends = kept.flatMap((edge, i): readonly End[] => [
    { edge: i, at: edge.from, isStart: true },
    { edge: i, at: edge.to, isStart: false },
  ]);
  const raster = new EndRaster(ends);
  const partners = new Map(ends.map((end) => [endKey(end), onlyPartner(end, raster.near(end), ends)]));
  const left = new Set(kept.keys());
  const loops: Edge[][] = [];
  for (const start of kept.keys()) if (left.has(start)) loops.push(walk(start, { kept, partners, left }));
  return loops;
}

const endKey = ({ edge, isStart }: Pick<End, 'edge' | 'isStart'>): string => `${edge} ${isStart}`;

function onlyPartner(end: End, near: readonly End[], all: readonly End[]): End {
  const [partner] = near;
  if (partner === undefined) throw openAt(end, all);
  if (near.length === 1) return partner;
  const remedy = 'remove lines that are drawn twice, and let every point join exactly two lines';
  throw new DrawingFault('outline-branches', `has ${near.length + 1} lines that meet at ${placeText(end.at)}`, remedy);
}

function openAt(end: End, all: readonly End[]): DrawingFault {
  const others = all.filter((other) => other.edge !== end.edge || other.isStart !== end.isStart);
  const gap = others.reduce((least, other) => Math.min(least, distance(other.at, end.at)), Number.POSITIVE_INFINITY);
  const allowed = `is open: a line ends at ${placeText(end.at)}, ${Number(gap.toFixed(3))} mm from the nearest other end`;
  return new DrawingFault('outline-open', allowed, `close the gap; ends within ${JOIN_MM} mm are joined`);
}

function walk(
  start: number,
  graph: {
    readonly kept: readonly Edge[];
    readonly partners: ReadonlyMap<string, End>;
    readonly left: Set<number>;
  },
): Edge[] {
  const loop: Edge[] = [];
  let here = { edge: start, isStart: true };
  while (graph.left.delete(here.edge)) {
    const edge = graph.kept[here.edge];
    const next = graph.partners.get(endKey({ edge: here.edge, isStart: !here.isStart }));
    if (edge === undefined || next === undefined) throw new Error('every end of an edge has a partner');
    loop.push(here.isStart ? edge : { from: edge.to, to: edge.from, bulge: -edge.bulge });
    here = next;
  }
  return loop;
}
