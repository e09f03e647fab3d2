import type { Assembly, EmittedFile } from '@sheetwave/geometry';
import { bendJigs } from './bend-jigs.ts';
import { drillJigs } from './drill-jigs.ts';
import { heightGauge } from './height-gauge.ts';
import { saddles } from './saddles.ts';
import { spacerFiles } from './spacers.ts';
import { stackJig } from './stack-jig.ts';

export interface EmittedStl {
  /** Each part twice, as binary STL in mm and as 3MF: flat on z = 0 and centred, ready to print as it lies. */
  readonly files: readonly EmittedFile[];
  /** What was left out or made otherwise than usual, and why. */
  readonly notes: readonly string[];
}

/**
 * What an antenna gives a 3D printer: spacers of the exact heights under its layers, the two like halves of a jig that holds
 * one stack while it is fastened, a gauge for its heights, guides to drill and to bend by, and saddles that carry the harness
 * while it is soldered. Jigs are made for each kind of part, however many pieces there are of it.
 * The same assembly always gives the same bytes.
 *
 * Throws, instead of giving a file, when a mesh is not closed or has not the size it should have.
 *
 * @example
 * const { files, notes } = emitStl(assembly);
 * // files[0].path === 'jigs/spacer-6.00mm.stl', files[1].path === 'jigs/spacer-6.00mm.3mf'
 */
export function emitStl(assembly: Assembly): EmittedStl {
  const made = [spacerFiles, stackJig, heightGauge, drillJigs, bendJigs, saddles].map((make) => make(assembly));
  return { files: made.flatMap((each) => each.files), notes: made.flatMap((each) => each.notes) };
}
