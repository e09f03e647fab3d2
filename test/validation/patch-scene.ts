import type { GridRules, Outline, Port, Quality, Scene, Solid } from '@sheetwave/field';
import { GRID_RULES } from '@sheetwave/field';
import { effectiveLength, patchQuality, surfaceResistance } from '@sheetwave/rf';
import { closedFormHz, seriesPermittivity } from './closed-form.ts';
import { type PatchOutline, type PublishedRow, totalHeightMm } from './published-row.ts';

const M = 1e-3;

/** How the patch is listened to. */
export interface Feed {
  /** mm from the middle of the patch, along its length (of a triangle: along the height, towards the tip). */
  readonly atMm: number;
  readonly resistance: number;
  /** mm; left out for a feed without thickness. */
  readonly radiusMm?: number;
}

/** An open port near the edge hears the patch without loading it. */
export const listeningFeed = ({ outline }: PublishedRow): Feed => ({ atMm: 0.35 * reach(outline), resistance: 1e6 });

/** mm along the line of the feed. */
function reach(outline: PatchOutline): number {
  if (outline.kind === 'rectangle') return outline.lengthMm;
  return outline.kind === 'disc' ? 2 * outline.radiusMm : -outline.sideMm;
}

/** Inner conductor of the common 50 ohm panel connector (type SMA): 1.27 mm thick (IEC 61169-15; from memory). */
const PIN_RADIUS_MM = 0.635;

/** Copper (S/m) and the usual laminate: only to place the probe of thin patches. */
const COPPER = 5.8e7;
const LOSS_TANGENT = 0.001;

/**
 * A probe of a panel connector where the closed forms put 50 ohm: what an author who shows a match would have used. The edge
 * resistance is that of D. R. Jackson and N. G. Alexopoulos, IEEE Trans. AP-39 (1991) 407; the swing along the length is a
 * sine (a disc: J1, close to the sine of equal first maximum).
 */
export function matchedFeed(row: PublishedRow): Feed {
  const { outline } = row;
  const radiusMm = Math.min(PIN_RADIUS_MM, 0.04 * Math.abs(reach(outline)));
  if (outline.kind === 'triangle' || row.mode[0] !== 1)
    return { atMm: 0.25 * reach(outline), resistance: 50, radiusMm };
  return { atMm: fiftyOhmMm(row), resistance: 50, radiusMm };
}

function fiftyOhmMm(row: PublishedRow): number {
  const { outline } = row;
  if (outline.kind === 'triangle') return 0.25 * reach(outline);
  const heightM = totalHeightMm(row) * M;
  const permittivity = seriesPermittivity(row.layers);
  const freqHz = closedFormHz(row);
  // A disc as the square of equal resonant length.
  const lengthMm = outline.kind === 'disc' ? 1.7 * outline.radiusMm : outline.lengthMm;
  const widthMm = outline.kind === 'disc' ? 1.85 * outline.radiusMm : outline.widthMm;
  const sizes = { lengthM: lengthMm * M, widthM: widthMm * M, heightM, permittivity };
  const surfaceOhm = surfaceResistance(freqHz, COPPER);
  const edgeOhm = patchQuality({ ...sizes, freqHz, lossTangent: LOSS_TANGENT, surfaceOhm }).edgeResistance.value;
  const whole = effectiveLength({ ...sizes, sheetM: 0 }) / M;
  const wanted = (whole / Math.PI) * Math.asin(Math.sqrt(Math.min(1, 50 / edgeOhm)));
  return Math.min(wanted, 0.47 * lengthMm);
}

/** The patch on layers without end over an endless plane, all without loss, with one feed. */
export function patchScene(row: PublishedRow, feed: Feed): Scene {
  const at = totalHeightMm(row) * M;
  const x = feed.atMm * M;
  const port: Port = {
    name: 'probe',
    from: [x, 0, 0],
    to: [x, 0, at],
    resistance: feed.resistance,
    ...(feed.radiusMm === undefined ? {} : { radius: feed.radiusMm * M }),
  };
  return {
    sheets: [{ name: 'patch', normal: 'z', at, thickness: 0, outline: sheetOutline(row.outline) }],
    solids: substrate(row),
    wires: [],
    ports: [port],
    walls: { zLow: { kind: 'metal', at: 0 } },
  };
}

function sheetOutline(outline: PatchOutline): Outline {
  if (outline.kind === 'disc') return { kind: 'disc', centre: [0, 0], radius: outline.radiusMm * M };
  if (outline.kind === 'rectangle') {
    const [a, b] = [(outline.lengthMm / 2) * M, (outline.widthMm / 2) * M];
    return polygon([-a, -b], [a, -b], [a, b], [-a, b]);
  }
  const side = outline.sideMm * M;
  const height = (side * Math.sqrt(3)) / 2;
  // The origin is the centroid; the tip points along x.
  return polygon([-height / 3, -side / 2], [(2 * height) / 3, 0], [-height / 3, side / 2]);
}

const polygon = (...points: (readonly [number, number])[]): Outline => ({ kind: 'polygon', points });

function substrate({ layers }: PublishedRow): Solid[] {
  let from = 0;
  return layers.flatMap(({ heightMm, permittivity }, n): Solid[] => {
    const [low, high] = [from, from + heightMm * M];
    from = high;
    if (permittivity === 1) return [];
    const shape = { kind: 'box', low: [-Infinity, -Infinity, low], high: [Infinity, Infinity, high] } as const;
    return [{ name: `layer ${n + 1}`, permittivity, shape }];
  });
}

/** Most edge cells along a patch with a curved or slanted outline, which needs small cells all over. */
const CELLS_ALONG: Readonly<Record<Quality, number>> = { draft: 70, normal: 100, fine: 150 };

/**
 * Rules of the grid for a row: where the layer is very thin against the patch, cells at the edges may be wider than those
 * across the layer. The fringe is then a small part of the length, and the field of the edge inside a cell is known.
 */
export function rulesFor(row: PublishedRow, quality: Quality): Partial<GridRules> {
  if (row.outline.kind === 'rectangle') return {};
  const acrossLayer = totalHeightMm(row) / GRID_RULES[quality].cellsAcrossGap;
  const widest = Math.abs(reach(row.outline)) / CELLS_ALONG[quality];
  return { edgeToGapCell: Math.max(1, widest / acrossLayer) };
}
