import jscad from '@jscad/modeling';
import { serialize } from '@jscad/stl-serializer';
import type { Triangle } from './mesh.ts';
import { readStl } from './stl-file.ts';

// The only file that touches the solid modeller. It accepts misspelt options in silence and takes their defaults,
// and its serializer opens seams in parts larger than about a millimetre: both are caught here.

const { booleans, extrusions, geometries, maths, measurements, primitives, transforms } = jscad;
// Its own types leave this function out.
const generalize = jscad.modifiers.generalize as unknown as (
  options: { readonly snap: true; readonly triangulate: true },
  solid: Solid,
) => Solid;

export type Solid = ReturnType<typeof geometries.geom3.create>;
type Flat = ReturnType<typeof geometries.geom2.create>;

/** Corners of every printed circle. A multiple of four, so that the width and depth of a circle are its diameter. */
export const CIRCLE_CORNERS = 64;

/**
 * A tube standing on z = 0 around the z axis: a ring in the plane, extruded. The bore's flats touch the circle asked for
 * (radius / cos(π/n)), so that the narrowest place is still `boreMm`; the outside's corners lie on its circle. Its lowest
 * `bevelMm` narrow toward the bed on both sides: the first printed layers spread.
 * Throws unless 0 < bore < outer and the bevel leaves a ring to stand on, and for any option it does not know.
 */
export function tube(options: {
  readonly outerMm: number;
  readonly boreMm: number;
  readonly heightMm: number;
  readonly bevelMm: number;
}): Solid {
  requireExactly(options, ['outerMm', 'boreMm', 'heightMm'], ['bevelMm']);
  const { outerMm, boreMm, heightMm, bevelMm } = options;
  const boreRadiusMm = boreMm / 2 / Math.cos(Math.PI / CIRCLE_CORNERS);
  if (!(boreRadiusMm + 2 * bevelMm < outerMm / 2 && bevelMm < heightMm))
    throw new Error(`tube: a bore of ${boreMm} mm leaves no wall in ${outerMm} mm`);
  const ring = (narrower: number): Flat =>
    booleans.subtract(disc(outerMm / 2 - narrower), disc(boreRadiusMm + narrower));
  if (bevelMm === 0) return extrusions.extrudeLinear({ height: heightMm }, ring(0));
  return through([
    { ring: ring(bevelMm), z: 0 },
    { ring: ring(0), z: bevelMm },
    { ring: ring(0), z: heightMm },
  ]);
}

function disc(radius: number): Flat {
  return primitives.circle({ radius, segments: CIRCLE_CORNERS });
}

/** A solid through like rings at several heights. */
function through(rings: readonly { readonly ring: Flat; readonly z: number }[]): Solid {
  const slices = rings.map(({ ring, z }) =>
    extrusions.slice.transform(
      maths.mat4.fromTranslation(maths.mat4.create(), [0, 0, z]),
      extrusions.slice.fromSides(geometries.geom2.toSides(ring)),
    ),
  );
  const [bed] = slices;
  if (bed === undefined) throw new Error('a solid needs a slice');
  return extrusions.extrudeFromSlices(
    {
      numberOfSlices: slices.length,
      capStart: true,
      capEnd: true,
      close: false,
      callback: (_progress: number, index: number) => slices[index] ?? bed,
    },
    bed,
  );
}

/** The facets the serializer writes for a solid, as single-precision numbers. */
export function facetsOf(solid: Solid): readonly Triangle[] {
  return readStl(joined(serialize({ binary: true }, seal(solid))));
}

/**
 * Snaps and triangulates at a size of 0.3 mm, where the modeller's seam repair (which works to 1e-5 mm) is coarser than
 * its own snapping (1e-5 of the size). At natural size the order is reversed and seams stay open.
 */
function seal(solid: Solid): Solid {
  const [low, high] = measurements.measureBoundingBox(solid);
  const k = (SEALING_MM * 3) / (high[0] - low[0] + high[1] - low[1] + high[2] - low[2]);
  const small = generalize({ snap: true, triangulate: true }, transforms.scale([k, k, k], solid));
  return transforms.scale([1 / k, 1 / k, 1 / k], small);
}
/** Mean side of the bounding box while sealing; measured to close every construction used here, 1 and 0.1 do not. */
const SEALING_MM = 0.3;

function joined(chunks: readonly ArrayBuffer[]): Uint8Array {
  const all = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.byteLength, 0));
  let at = 0;
  for (const chunk of chunks) {
    all.set(new Uint8Array(chunk), at);
    at += chunk.byteLength;
  }
  return all;
}

/** Every option present, finite and above zero (or not below it) where it is a number, and none beyond them. */
function requireExactly(options: object, above: readonly string[], notBelow: readonly string[]): void {
  const given: Readonly<Record<string, unknown>> = { ...options };
  const names = [...above, ...notBelow];
  for (const name of Object.keys(given))
    if (!names.includes(name)) throw new Error(`solid: unknown option "${name}"; known are ${names.join(', ')}`);
  for (const name of names) {
    const value = given[name];
    if (value === undefined) throw new Error(`solid: option "${name}" is missing`);
    const fits =
      typeof value === 'number' && Number.isFinite(value) && (value > 0 || (value === 0 && notBelow.includes(name)));
    if (!fits) throw new Error(`solid: ${name} is ${value}, it must be above 0`);
  }
}
