import type { Finding } from '@sheetwave/design';
import type { Assembly } from './assembly.ts';
import { stackUpFindings } from './stack-up/stack-up.ts';
import { areaFindings } from './validate/area-findings.ts';
import { copperFindings } from './validate/copper-findings.ts';
import { cutFindings } from './validate/cut-findings.ts';
import { finiteFindings } from './validate/finite-findings.ts';
import { harnessFindings } from './validate/harness-findings.ts';
import { latticeFindings } from './validate/lattice-findings.ts';
import { outlineFindings } from './validate/outline-findings.ts';
import { concentricFindings, quantityFindings } from './validate/placement-findings.ts';
import { stackFindings } from './validate/stack-findings.ts';

/**
 * What "right" means for an assembly: closed simple outlines of the nominal area, holes and copper inside, patches apart and over the
 * reflector, holes in line, heights that add up, a harness that touches nothing, quantities that match, finite numbers.
 * Errors must not be built; warnings can be, with the numbers they give. Each finding gives the worst case of its kind and
 * how many more there are. Time grows with the number of pieces, not with its square.
 */
export function validate(assembly: Assembly): Finding[] {
  const notFinite = finiteFindings(assembly);
  if (notFinite.length > 0) return notFinite;
  const outlines = assembly.parts.flatMap((part) =>
    part.form === 'plate' || part.form === 'board' ? outlineFindings(part) : [],
  );
  const counts = quantityFindings(assembly);
  // Areas, overlaps and places mean nothing on contours that are broken.
  if (outlines.some((finding) => finding.code === 'broken-contour')) return [...outlines, ...counts];
  return [
    ...outlines,
    ...areaFindings(assembly),
    ...assembly.parts.flatMap((part) => (part.form === 'plate' || part.form === 'board' ? cutFindings(part) : [])),
    ...assembly.parts.flatMap((part) => (part.form === 'board' ? copperFindings(part) : [])),
    ...latticeFindings(assembly),
    ...concentricFindings(assembly),
    ...stackFindings(assembly),
    ...harnessFindings(assembly),
    ...stackUpFindings(assembly),
    ...counts,
  ];
}
