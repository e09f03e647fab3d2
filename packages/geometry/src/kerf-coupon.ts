import type { Process, Sheet } from '@sheetwave/design';
import type { Assembly } from './assembly.ts';
import { polygonContour, rectangleContour } from './contours.ts';
import type { Outline } from './outline.ts';
import { reverseContour } from './transform.ts';

/** A test piece for one sheet and process: a plate with slots, and a stepped tongue of the same widths. */
export interface KerfCoupon {
  readonly sheet: Sheet;
  readonly process: Process;
  /** Nominal widths, of slots and of steps of the tongue alike. */
  readonly widthsMm: readonly number[];
  readonly plate: Outline;
  readonly tongue: Outline;
}

const WIDTHS_MM = [5, 10, 20];
const WEB_MM = 5;
const DEPTH_MM = 15;

/**
 * The width of the cut from two readings of a caliper on a coupon that was cut exactly on its lines. A cut as wide as the kerf takes half of it on
 * either side of its line, so a slot of nominal width w comes out at w + kerf and a tongue at w − kerf (plane geometry, computed):
 *
 *     kerf = (slot − tongue) / 2
 *
 * for a slot and a tongue of the same nominal width, which drops out. In mm. Throws when a reading is not above 0, or the slot is the narrower
 * one: then the machine has made up for its kerf already, or the readings were taken of different widths.
 */
export function kerfFromReadings(readings: { readonly slotMm: number; readonly tongueMm: number }): number {
  const { slotMm, tongueMm } = readings;
  if (!(slotMm > 0 && tongueMm > 0)) throw new Error(`kerf: readings of ${slotMm} and ${tongueMm} mm`);
  if (slotMm < tongueMm) throw new Error(`kerf: the slot (${slotMm} mm) is narrower than the tongue (${tongueMm} mm)`);
  return (slotMm - tongueMm) / 2;
}

/** One coupon for each sheet and process of the plates of an assembly whose process has a kerf, in the order of the parts. */
export function kerfCoupons(assembly: Assembly): KerfCoupon[] {
  const found = new Map<string, KerfCoupon>();
  for (const part of assembly.parts) {
    if (part.form !== 'plate' || !(part.process.kerfMm > 0)) continue;
    const key = `${part.process.id} ${part.sheet.id}`;
    if (!found.has(key)) found.set(key, kerfCoupon(part.sheet, part.process));
  }
  return [...found.values()];
}

/** Slots of 5, 10 and 20 mm, or whole multiples where the kerf or the corner radius is so wide that it would eat them. */
export function kerfCoupon(sheet: Sheet, process: Process): KerfCoupon {
  const times = Math.max(1, Math.ceil(Math.max(2 * process.kerfMm, 2.5 * process.smallestRadiusMm) / 5));
  const widthsMm = WIDTHS_MM.map((width) => width * times);
  return { sheet, process, widthsMm, plate: plateOf(widthsMm), tongue: tongueOf(widthsMm) };
}

/** Lower left corner at (0, 0); slots upright, from narrow to wide. */
function plateOf(widthsMm: readonly number[]): Outline {
  let x = WEB_MM;
  const cutouts = widthsMm.map((widthMm) => {
    const centre = { x: x + widthMm / 2, y: WEB_MM + DEPTH_MM / 2 };
    x += widthMm + WEB_MM;
    return reverseContour(rectangleContour({ centre, widthMm, heightMm: DEPTH_MM }));
  });
  const heightMm = DEPTH_MM + 2 * WEB_MM;
  return {
    outer: rectangleContour({ centre: { x: x / 2, y: heightMm / 2 }, widthMm: x, heightMm }),
    cutouts,
    holes: [],
  };
}

/** On its middle line along x from (0, 0), stepped from wide to narrow, so that its steps face the narrow end. */
function tongueOf(widthsMm: readonly number[]): Outline {
  const steps = [...widthsMm]
    .reverse()
    .map((width, i) => ({ half: width / 2, from: i * DEPTH_MM, to: (i + 1) * DEPTH_MM }));
  const below = steps.flatMap(({ half, from, to }) => [
    { x: from, y: -half },
    { x: to, y: -half },
  ]);
  const above = [...below].reverse().map(({ x, y }) => ({ x, y: -y }));
  return { outer: polygonContour([...below, ...above]), cutouts: [], holes: [] };
}
