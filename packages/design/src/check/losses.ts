import type { Design } from '../design.ts';
import type { KeyPath } from '../path.ts';
import type { Report } from '../report.ts';
import type { Laminate } from '../stock/types.ts';

interface Used {
  readonly path: KeyPath;
  readonly laminate: Laminate;
}

/** Boards whose dielectric the patch's field fills: under an etched patch or line. */
function radiatingBoards({ reflector, layers, harness }: Design): readonly Used[] {
  const used: Used[] = [];
  const etched = layers[0]?.build.kind === 'on-reflector-board' || harness.kind === 'microstrip';
  if (reflector.material.kind === 'board' && etched) {
    used.push({ path: ['reflector', 'board'], laminate: reflector.material.laminate });
  }
  layers.forEach(({ build }, index) => {
    if (build.kind === 'board') used.push({ path: ['layer', index, 'board'], laminate: build.laminate });
  });
  return used;
}

function checkPolarisation({ targets, lattice }: Design, report: Report): void {
  if (targets.polarisation === undefined || targets.polarisation === lattice.orientation) return;
  report.warning({
    code: 'polarisation-differs',
    path: ['targets', 'polarisation'],
    value: `"${targets.polarisation}"`,
    allowed: `differs from the orientation of the patches, which is ${lattice.orientation}`,
    remedy: `write orientation = "${targets.polarisation}" under [lattice], or hang the antenna turned by 90 deg`,
  });
}

/** What can be built but will not do what was hoped: warnings. */
export function checkLosses(design: Design, report: Report): void {
  checkPolarisation(design, report);
  for (const { path, laminate } of radiatingBoards(design)) {
    if (!laminate.lossy) continue;
    report.warning({
      code: 'lossy-board',
      path,
      value: `"${laminate.id}"`,
      allowed: `has a loss tangent of ${laminate.lossTangent}, which turns part of the power in a patch into heat, and a permittivity that differs between lots`,
      remedy:
        'use sheet metal on spacers or a PTFE laminate where gain matters, and measure a coupon of this board first',
    });
  }
}
