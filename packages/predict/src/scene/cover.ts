import { FieldError, type Solid } from '@sheetwave/field';
import { type Assembly, foldedReflector } from '@sheetwave/geometry';
import { metres } from './lengths.ts';
import type { SceneLevel } from './levels.ts';
import type { ScenePart } from './scene-parts.ts';

/** A flat sheet in front of an antenna. */
export interface FlatCover {
  readonly thicknessMm: number;
  /** From the front of the outermost patch to the back of the sheet. */
  readonly distanceMm: number;
  readonly permittivity: number;
  readonly lossTangent: number;
}

export interface SceneCover extends FlatCover {
  /** False leaves the sheet's place and its grid, and fills it with air. */
  readonly filled: boolean;
}

const NAME = 'cover';

/**
 * The cover as a plate of dielectric over the reflector. Emptied, a plate of air is laid over it: solids that come later replace earlier
 * ones, and the grid is the same to the last bit. Throws FieldError when something reaches into its place.
 */
export function coverPart(
  assembly: Assembly,
  { levels, parts }: { readonly levels: readonly SceneLevel[]; readonly parts: readonly ScenePart[] },
  cover: SceneCover,
): ScenePart {
  const topMm = Math.max(0, ...levels.map(({ metalTopMm, bodyTopMm }) => Math.max(metalTopMm, bodyTopMm)));
  const lowMm = topMm + cover.distanceMm;
  refuseInWay(assembly, parts, { topMm, lowMm, distanceMm: cover.distanceMm });
  const { widthMm, heightMm } = assembly.reflector;
  const [x, y] = [metres(widthMm / 2), metres(heightMm / 2)];
  const shape = {
    kind: 'box',
    low: [-x, -y, metres(lowMm)],
    high: [x, y, metres(lowMm + cover.thicknessMm)],
  } as const;
  const { permittivity, lossTangent } = cover;
  const plate: Solid = { name: NAME, shape, permittivity, lossTangent };
  return { path: NAME, solids: [plate, ...(cover.filled ? [] : [{ name: NAME, shape, permittivity: 1 }])] };
}

interface Place {
  readonly topMm: number;
  readonly lowMm: number;
  readonly distanceMm: number;
}

/** Heights land on a grid of a nanometre. */
const SAME_MM = 1e-5;

function refuseInWay(assembly: Assembly, parts: readonly ScenePart[], { topMm, lowMm, distanceMm }: Place): void {
  const highestMm = Math.max(topMm, ...parts.flatMap(topsMm), ...foldTopsMm(assembly));
  if (highestMm <= lowMm + SAME_MM) return;
  const over = (mm: number) => `${Number(mm.toFixed(2))} mm`;
  throw new FieldError([
    {
      code: 'cover-in-the-way',
      path: NAME,
      value: over(distanceMm),
      allowed: `is too near: screws, nuts or folded edges reach ${over(highestMm - topMm)} above the outermost patch`,
      remedy: `put the cover at least ${over(highestMm - topMm)} in front of it`,
    },
  ]);
}

/** Fronts of what lies level or stands on end, mm. */
function topsMm({ sheets = [], solids = [], wires = [] }: ScenePart): number[] {
  return [
    ...sheets.filter(({ normal }) => normal === 'z').map(({ at, thickness }) => 1000 * (at + thickness)),
    ...solids.map(({ shape }) =>
      shape.kind === 'box' ? 1000 * shape.high[2] : shape.axis === 'z' ? 1000 * shape.to : 0,
    ),
    ...wires.map(({ from, to }) => 1000 * Math.max(from[2], to[2])),
  ];
}

const foldTopsMm = (assembly: Assembly): number[] =>
  (foldedReflector(assembly)?.edges ?? []).map(({ highMm }) => highMm);
