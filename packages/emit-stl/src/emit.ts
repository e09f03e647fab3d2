import type { Assembly, EmittedFile } from '@sheetwave/geometry';
import { heightGauge } from './height-gauge.ts';
import { spacerFiles } from './spacers.ts';
import { stackJig } from './stack-jig.ts';

export interface EmittedStl {
  /** Binary STL in mm, each flat on z = 0 and centred, ready to print as it lies. */
  readonly files: readonly EmittedFile[];
  /** What was left out or made slimmer, and why. */
  readonly notes: readonly string[];
}

/**
 * What an antenna gives a 3D printer: spacers of the exact heights under its layers, the two like halves of a jig that holds
 * one stack while it is fastened, and a gauge for its heights. The same assembly always gives the same bytes.
 *
 * Throws, instead of giving a file, when a mesh is not closed or has not the size it should have.
 *
 * @example
 * const { files, notes } = emitStl(assembly);
 * // files[0].path === 'jigs/spacer-6.00mm.stl'
 */
export function emitStl(assembly: Assembly): EmittedStl {
  const made = [spacerFiles(assembly), stackJig(assembly), heightGauge(assembly)];
  return { files: made.flatMap((each) => each.files), notes: made.flatMap((each) => each.notes) };
}
