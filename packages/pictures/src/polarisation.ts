import type { Pen } from '@sheetwave/drawings';
import { around, arrowHead, textBox, union } from '@sheetwave/drawings';
import { type Bounds, circularHand, type Point } from '@sheetwave/geometry';
import { ACCENT, INK } from './palette.ts';
import type { View } from './top-view.ts';

const POLARISATION_SIZE = 2.8;

/** Radius of the turning arrow, and how far it turns, degrees. */
const TURN_RADIUS = 8;
const TURN_DEG = 300;

type Hand = NonNullable<ReturnType<typeof circularHand>>;

function polarisationPlace(view: View): { readonly centre: Point; readonly words: string } {
  const { orientation } = view.assembly.design.lattice;
  const hand = circularHand(view.assembly.design);
  const words = hand === undefined ? `E field ${orientation}` : `circular, ${hand}`;
  return { centre: { x: view.reflector.minX - (hand === undefined ? 30 : 34), y: view.reflector.maxY - 12 }, words };
}

function wordsUnderArrow(view: View, centre: Point): Point {
  const tall =
    circularHand(view.assembly.design) !== undefined || view.assembly.design.lattice.orientation === 'vertical';
  return { x: centre.x, y: centre.y - (tall ? 15 : 6) };
}

/** The box of the arrow with its words. */
export function polarisationBox(view: View): Bounds {
  const { centre, words } = polarisationPlace(view);
  const text = textBox(words, wordsUnderArrow(view, centre), { sizeMm: POLARISATION_SIZE, anchor: 'middle' });
  return union(around(centre, 12), text);
}

/** A double arrow along the electric field, or an arrow that turns as the field does, seen from in front. */
export function drawPolarisation(pen: Pen, view: View): void {
  const { centre, words } = polarisationPlace(view);
  const group = pen.group('polarisation', { stroke: ACCENT, width: 0.5, fill: 'none' });
  const hand = circularHand(view.assembly.design);
  if (hand === undefined) drawAlong(group, centre, view.assembly.design.lattice.orientation === 'vertical');
  else drawTurn(group, centre, hand);
  group.text(wordsUnderArrow(view, centre), words, { sizeMm: POLARISATION_SIZE, anchor: 'middle', colour: INK });
}

function drawAlong(group: Pen, centre: Point, upright: boolean): void {
  const direction = upright ? { x: 0, y: 1 } : { x: 1, y: 0 };
  const along = (reach: number): Point => ({ x: centre.x + reach * direction.x, y: centre.y + reach * direction.y });
  group.line(along(-8), along(8));
  for (const sign of [-1, 1])
    arrowHead(group, along(sign * 10), {
      direction: { x: direction.x * sign, y: direction.y * sign },
      lengthMm: 3,
      colour: ACCENT,
    });
}

/** A right-hand wave that comes toward the observer turns counter-clockwise (IEEE Std 145, memory). */
function drawTurn(group: Pen, centre: Point, hand: Hand): void {
  const sense = hand === 'right-hand' ? 1 : -1;
  const at = (deg: number, radius = TURN_RADIUS): Point => {
    const angle = ((90 + sense * deg) * Math.PI) / 180;
    return { x: centre.x + radius * Math.cos(angle), y: centre.y + radius * Math.sin(angle) };
  };
  const steps = Array.from({ length: TURN_DEG / 10 }, (_, i) => 30 + 10 * i);
  group.lines(steps.map((deg) => [at(deg), at(deg + 10)] as const));
  const [from, tip] = [at(TURN_DEG + 20), at(TURN_DEG + 50)];
  const length = Math.hypot(tip.x - from.x, tip.y - from.y);
  const direction = { x: (tip.x - from.x) / length, y: (tip.y - from.y) / length };
  arrowHead(group, tip, { direction, lengthMm: 3, colour: ACCENT });
}
