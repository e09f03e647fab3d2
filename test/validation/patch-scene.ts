import type { GridRules, Outline, Port, Quality, Scene, Solid } from '@sheetwave/field';
import { GRID_RULES, MAGNETIC_CONSTANT } from '@sheetwave/field';
import {
  circularPatchEdgeResistance,
  circularProbeFromCentre,
  effectiveLength,
  effectiveRadius,
  patchQuality,
  probeReactance,
  surfaceResistance,
} from '@sheetwave/rf';
import { closedFormHz, seriesPermittivity } from './closed-form.ts';
import { type PatchOutline, type PublishedRow, totalHeightMm } from './published-row.ts';

const M = 1e-3;

/** How the patch is fed. */
export interface Feed {
  /** mm from the middle of the patch, along its length (of a triangle: along the height, towards the tip). */
  readonly atMm: number;
  readonly resistance: number;
  /** mm, of the probe. */
  readonly radiusMm: number;
}

/** An open port near the edge hears the patch without loading it. */
export const listeningFeed = ({ outline }: PublishedRow): Feed => ({
  atMm: 0.35 * reach(outline),
  resistance: 1e6,
  radiusMm: 0,
});

/** mm along the line of the feed. */
function reach(outline: PatchOutline): number {
  if (outline.kind === 'rectangle') return outline.lengthMm;
  return outline.kind === 'disc' ? 2 * outline.radiusMm : -0.6 * outline.sideMm;
}

/** Inner conductor of the common 50 ohm panel connector (type SMA): 1.27 mm thick (IEC 61169-15; from memory). */
const PIN_RADIUS_MM = 0.635;

/** Copper (S/m) and the usual laminate: only to place the probe of thin patches. */
const COPPER = 5.8e7;
const LOSS_TANGENT = 0.001;

/**
 * A probe of a panel connector where the closed forms put its best match: what an author who shows a match would have used.
 * A probe of the reactance X in series with a parallel resonance of the resistance R is matched to 50 ohm, a little above the
 * resonance, when R = 50 (1 + (X/50)^2): from Z = jX + R/(1 + jd) = 50 by hand. Other modes than the lowest and triangles,
 * for which no closed form says so, have their probe half way out.
 */
export function matchedFeed(row: PublishedRow): Feed {
  const { outline } = row;
  const edgeMm = 0.5 * Math.abs(reach(outline));
  const radiusMm = Math.min(PIN_RADIUS_MM, 0.08 * edgeMm);
  if (outline.kind === 'triangle' || row.mode[0] !== 1) {
    return { atMm: 0.25 * reach(outline), resistance: REFERENCE, radiusMm };
  }
  const freqHz = closedFormHz(row);
  const layer = { freqHz, heightM: totalHeightMm(row) * M, permittivity: seriesPermittivity(row.layers) };
  const reactance = probeReactance({ ...layer, radiusM: radiusMm * M }).value;
  const wantedOhm = REFERENCE * (1 + (reactance / REFERENCE) ** 2);
  const fromMiddle =
    outline.kind === 'disc' ? onDisc(outline, layer, wantedOhm) : onRectangle(outline, layer, wantedOhm);
  return { atMm: Math.min(fromMiddle / M, edgeMm - 1.5 * radiusMm), resistance: REFERENCE, radiusMm };
}

/** ohm, of the cables and analysers. */
const REFERENCE = 50;

interface LayerAt {
  readonly freqHz: number;
  readonly heightM: number;
  readonly permittivity: number;
}

/** m from the middle, at most the reach of the wave: see Jackson and Alexopoulos for the edge, a sine along the length. */
function onRectangle(
  { lengthMm, widthMm }: Extract<PatchOutline, { kind: 'rectangle' }>,
  layer: LayerAt,
  wantedOhm: number,
): number {
  const sizes = { ...layer, lengthM: lengthMm * M, widthM: widthMm * M };
  const surfaceOhm = surfaceResistance(layer.freqHz, COPPER);
  const edgeOhm = patchQuality({ ...sizes, lossTangent: LOSS_TANGENT, surfaceOhm }).edgeResistance.value;
  const whole = effectiveLength({ ...sizes, sheetM: 0 });
  return (whole / Math.PI) * Math.asin(Math.sqrt(Math.min(1, wantedOhm / edgeOhm)));
}

function onDisc({ radiusMm }: Extract<PatchOutline, { kind: 'disc' }>, layer: LayerAt, wantedOhm: number): number {
  const disc = { ...layer, radiusM: radiusMm * M };
  const edgeOhm = circularPatchEdgeResistance({ ...disc, lossTangent: LOSS_TANGENT, conductivity: COPPER }).value;
  const effectiveRadiusM = effectiveRadius(disc);
  return circularProbeFromCentre({ wantedOhm: Math.min(wantedOhm, edgeOhm), edgeOhm, effectiveRadiusM }).value;
}

/**
 * Radius, in cells, that a filament has on a lattice of equal cells: e^-(gamma + 1.5 ln 2), from the potential of a point source
 * on the square lattice (W. H. McCrea and F. J. W. Whipple, Proc. R. Soc. Edinburgh 60 (1940) 281).
 */
const FILAMENT = 0.1985;

/**
 * Inductance (H) that the probe has more than the filament which stands for it on the grid, mu0 h/(2 pi) ln(filament/radius):
 * of the field between the two radii. Negative for a thicker probe. A filament, because a sub-cell wire at an open port would
 * change the field of the patch around it.
 */
export function probeInductance(row: PublishedRow, radiusMm: number, cellM: number): number {
  return (MAGNETIC_CONSTANT / (2 * Math.PI)) * totalHeightMm(row) * M * Math.log((FILAMENT * cellM) / (radiusMm * M));
}

/** The patch on layers without end over an endless plane, all without loss, with one feed. */
export function patchScene(row: PublishedRow, feed: Feed): Scene {
  const at = totalHeightMm(row) * M;
  const x = feed.atMm * M;
  const port: Port = { name: 'probe', from: [x, 0, 0], to: [x, 0, at], resistance: feed.resistance };
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

/** Height over length. What the grid leaves of the error of the fringe is a part of the height: it counts as that over the length. */
const THIN = 0.03;
const THICK = { straight: 0.03, round: 0.05 } as const;

/**
 * Rules of the grid for a row. On thick layers, whose small grids cost little, those of the next finer quality; on thin ones, for
 * outlines that need small cells all over, those of the next coarser. There cells at the edges may also be wider than those
 * across the layer: the field of the edge inside a cell is known.
 */
export function rulesFor(row: PublishedRow, wanted: Quality): Partial<GridRules> {
  const along = Math.abs(reach(row.outline));
  const share = totalHeightMm(row) / along;
  const isStraight = row.outline.kind === 'rectangle';
  const thick = isStraight ? THICK.straight : THICK.round;
  const quality = share > thick ? FINER[wanted] : share < THIN && !isStraight ? COARSER[wanted] : wanted;
  const rules = GRID_RULES[quality];
  if (isStraight) return rules;
  // The cells at an edge go by the layer that it lies on.
  const acrossLayer = (row.layers.at(-1)?.heightMm ?? totalHeightMm(row)) / rules.cellsAcrossGap;
  return { ...rules, edgeToGapCell: Math.max(1, along / CELLS_ALONG[quality] / acrossLayer) };
}

const FINER: Readonly<Record<Quality, Quality>> = { draft: 'normal', normal: 'fine', fine: 'fine' };
const COARSER: Readonly<Record<Quality, Quality>> = { draft: 'draft', normal: 'draft', fine: 'normal' };
