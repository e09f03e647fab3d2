import type { Flat, Point } from '@sheetwave/geometry';
import type { RodJig } from './bend-gauge.ts';
import { type Inscription, inscriptionFor, lettering, MARGIN_MM } from './engraving.ts';
import { bore, box, type Extent, joined, movedFlat, polygon, post, without } from './flat-shapes.ts';
import { levelsFiles } from './levels-file.ts';
import { type Printed, short } from './print.ts';

const BASE_MM = 8;
const GROOVE_MM = 14;
const RAIL_MM = 6;
/** How high rails, ridge and mandrel stand past the upper side of the rod. */
const PAST_ROD_MM = 2;
/** From the mandrel to the edge on the side the rod swings to. */
const SWING_MM = 18;
/** Thinner mandrels break: a steel pin takes their place. */
const LEAST_PRINTED_MANDREL_MM = 8;
/** Thinner pins bend. */
const LEAST_PIN_MM = 1;
const RIDGE_MM = 4;
/** Free beside the pin, so that the print around its hole stays whole. */
const BESIDE_PIN_MM = 0.8;

/** Axis of the rod along y = 0, held where x is below 0, bent to the left about the mandrel; the bend begins at x = 0. */
interface Station {
  readonly mandrelMm: number;
  readonly printed: boolean;
  /** Centre of the mandrel. */
  readonly centre: Point;
}

/**
 * A short groove that ends at a mandrel, and a ridge at the angle to bend to. The end of the rail away from the mandrel is
 * where the bend begins: the scribed line goes there. Bends of other angles have a line each.
 */
export function bendBlock(jig: RodJig): Printed {
  const { rod, plan } = jig;
  const largest = plan.angles[0];
  if (largest === undefined) return { files: [], notes: [] };
  const tightest = Math.min(...plan.angles.map(({ mandrelRadiusMm }) => mandrelRadiusMm));
  const mandrelMm = Math.floor(20 * tightest + 1e-6) / 10;
  if (mandrelMm < LEAST_PIN_MM)
    return {
      files: [],
      notes: [
        `bending block of ${rod.name} left out: its mandrel would be ${short(2 * tightest)} mm thick, at least ${LEAST_PIN_MM} mm is needed`,
      ],
    };
  const station = {
    mandrelMm,
    printed: mandrelMm >= LEAST_PRINTED_MANDREL_MM,
    centre: { x: 0, y: mandrelMm / 2 + rod.rod.diameterMm / 2 },
  };
  return { files: filesOf(jig, station), notes: leverNotes(jig) };
}

function filesOf(jig: RodJig, station: Station) {
  const { rod, plan, print } = jig;
  const { low, high, text } = layout(jig, station);
  const letters = lettering(print);
  const hole = station.printed ? [] : [bore(station.centre, station.mandrelMm + print.holeAllowanceMm)];
  const base = without(box(low, high), hole);
  const lines = plan.angles.slice(1).map(({ bendToDeg }) => angleLine(jig, station, bendToDeg));
  const name = movedFlat(text.flat, { x: low.x + MARGIN_MM, y: low.y + MARGIN_MM });
  const mandrel = station.printed ? [post(station.centre, station.mandrelMm)] : [];
  const above = joined([rails(jig, station), ridge(jig, station), ...mandrel]);
  const mandrelWords = station.printed
    ? ''
    : ` A steel pin of ${short(station.mandrelMm)} mm, such as the shank of a drill, is the mandrel.`;
  return levelsFiles({
    path: `jigs/bend-block-${rod.id}`,
    title: `bending block of ${rod.name}`,
    use: `Print one.${mandrelWords} Scribed line at the end of the lower rail, numbered side in the groove; bend around the mandrel up to the ridge (${bendWords(jig)}).`,
    part: rod.id,
    bevelMm: print.elephantFootMm,
    levels: [
      { flat: base, topMm: BASE_MM - letters.depthMm },
      { flat: without(base, [name, ...lines]), topMm: BASE_MM },
      { flat: above, topMm: BASE_MM + rod.rod.diameterMm + PAST_ROD_MM },
    ],
  });
}

const bendWords = ({ plan }: RodJig): string =>
  plan.angles.map(({ angleDeg, bendToDeg }) => `${short(bendToDeg)} degrees for ${short(angleDeg)}`).join(', ');

function layout(jig: RodJig, station: Station): Extent & { readonly text: Inscription } {
  const { rod, plan, print, revision } = jig;
  const half = rod.rod.diameterMm / 2 + print.fitClearanceMm;
  const pin = station.printed ? [] : [`PIN ${short(station.mandrelMm)}`];
  const angles = plan.angles.map(({ bendToDeg }) => short(bendToDeg)).join(' ');
  const wordings = [`${rod.id} REV ${revision}`, ...pin, `TO ${angles} DEG`];
  const high = { x: SWING_MM + station.mandrelMm / 2, y: station.centre.y + station.mandrelMm / 2 + SWING_MM };
  const left = -GROOVE_MM - 2;
  const text = inscriptionFor(wordings, lettering(print), high.x - left - 2 * MARGIN_MM);
  return {
    text,
    low: { x: left, y: -half - RAIL_MM - text.heightMm - 2 * MARGIN_MM },
    high: { x: Math.max(high.x, left + text.widthMm + 2 * MARGIN_MM), y: high.y },
  };
}

/** The one on the mandrel's side ends short of it; the other ends where the bend begins. */
function rails({ rod, print }: RodJig, { mandrelMm }: Station): Flat {
  const half = rod.rod.diameterMm / 2 + print.fitClearanceMm;
  return joined([
    box({ x: -GROOVE_MM, y: -half - RAIL_MM }, { x: 0, y: -half }),
    box({ x: -GROOVE_MM, y: half }, { x: -mandrelMm / 2 - BESIDE_PIN_MM, y: half + RAIL_MM }),
  ]);
}

/** The rod's inner side meets it once it is bent to the largest angle. */
function ridge(jig: RodJig, station: Station): Flat {
  const radius = station.mandrelMm / 2;
  const from = radius + BESIDE_PIN_MM;
  return bar(station, {
    bendToDeg: jig.plan.angles[0]?.bendToDeg ?? 0,
    along: [from, SWING_MM - 2],
    across: [radius - RIDGE_MM, radius],
  });
}

/** Just outside the rod when it lies at this angle. */
function angleLine(jig: RodJig, station: Station, bendToDeg: number): Flat {
  const outside = station.mandrelMm / 2 + jig.rod.rod.diameterMm + 0.5;
  const { penMm } = lettering(jig.print);
  return bar(station, { bendToDeg, along: [station.mandrelMm / 2, SWING_MM - 4], across: [outside, outside + penMm] });
}

/** A rectangle along a rod bent to an angle: how far along it from the mandrel's centre, and how far across. */
function bar(
  { centre }: Station,
  {
    bendToDeg,
    along,
    across,
  }: {
    readonly bendToDeg: number;
    readonly along: readonly [number, number];
    readonly across: readonly [number, number];
  },
): Flat {
  const angle = (bendToDeg * Math.PI) / 180;
  const at = (s: number, n: number): Point => ({
    x: centre.x + s * Math.cos(angle) + n * Math.sin(angle),
    y: centre.y + s * Math.sin(angle) - n * Math.cos(angle),
  });
  return polygon([at(along[0], across[1]), at(along[1], across[1]), at(along[1], across[0]), at(along[0], across[0])]);
}

/** A leg that is short against the rod is bent with a tube over it, or left longer and cut back. */
function leverNotes({ rod, plan }: RodJig): readonly string[] {
  const short3 = plan.marks.filter(({ leverMm }) => leverMm < 3 * rod.rod.diameterMm);
  if (short3.length === 0) return [];
  const words = short3.map(({ order, leverMm }) => `${short(leverMm)} mm past bend ${order}`).join(', ');
  return [
    `bending jigs of ${rod.name}: only ${words} stay straight, too little to bend by hand; slide a tube over the end, or leave 10 mm more there and cut it off afterwards`,
  ];
}
