import type { Design } from '../design.ts';
import type { KeyPath } from '../path.ts';
import { handOfPatch } from '../polarisation.ts';
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

/** What the patches send: a hand when opposite corners of any of them are cut, else along their length. */
function sentPolarisation({ layers, lattice }: Design): NonNullable<Design['targets']['polarisation']> {
  return layers.map(({ shape }) => handOfPatch(shape)).find((hand) => hand !== undefined) ?? lattice.orientation;
}

function polarisationRemedy(wanted: string, sent: string): string {
  if (wanted.endsWith('-hand'))
    return sent.endsWith('-hand')
      ? 'leave hand out of cut_corners'
      : `give the layer of the driven patch cut_corners = { corners = "opposite", size = "3 mm", hand = "${wanted}" }`;
  return sent.endsWith('-hand')
    ? 'leave cut_corners out, or cut all corners'
    : `write orientation = "${wanted}" under [lattice], or hang the antenna turned by 90 deg`;
}

function checkPolarisation(design: Design, report: Report): void {
  const wanted = design.targets.polarisation;
  const sent = sentPolarisation(design);
  if (wanted === undefined || wanted === sent) return;
  const circular = sent.endsWith('-hand') || wanted.endsWith('-hand');
  report.warning({
    code: 'polarisation-differs',
    path: ['targets', 'polarisation'],
    value: `"${wanted}"`,
    allowed: circular
      ? `differs from what the corners of the patches give, which is ${sent}`
      : `differs from the orientation of the patches, which is ${sent}`,
    remedy: polarisationRemedy(wanted, sent),
  });
}

/** Layers whose corners give opposite hands work against one another. */
function checkHands({ layers }: Design, report: Report): void {
  const hands = layers.map(({ shape }) => handOfPatch(shape));
  const first = hands.find((hand) => hand !== undefined);
  const other = hands.findIndex((hand) => hand !== undefined && hand !== first);
  if (first === undefined || other < 0) return;
  report.warning({
    code: 'hands-differ',
    path: ['layer', other, 'cut_corners'],
    value: `"${hands[other]}"`,
    allowed: `works against the ${first} cut of another layer`,
    remedy: 'give both layers the same hand',
  });
}

/** What can be built but will not do what was hoped: warnings. */
export function checkLosses(design: Design, report: Report): void {
  checkPolarisation(design, report);
  checkHands(design, report);
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
