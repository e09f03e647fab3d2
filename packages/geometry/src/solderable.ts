import type { Design, Finding, Sheet } from '@sheetwave/design';
import { warningFinding } from './finding.ts';

/** Metals that soft solder does not wet with the fluxes of a workshop (common practice, no source). */
const NOT_SOLDERABLE = new Set(['aluminium', 'stainless steel']);

/** Warnings for sheets that the harness or the coax is to be soldered to, and that solder does not take to. */
export function solderFindings(design: Design): Finding[] {
  const { reflector, layers, feed, harness } = design;
  const [driven] = layers;
  const soldered: [path: string, sheet: Sheet | undefined, what: string][] = [
    [
      'reflector.sheet',
      reflector.material.kind === 'sheet' ? reflector.material.sheet : undefined,
      'the jacket of the coax',
    ],
    [
      'layer[0].sheet',
      driven?.build.kind === 'sheet' && feed.kind === 'probe' ? driven.build.sheet : undefined,
      'the probe',
    ],
    ['harness.sheet', harness.kind === 'strip' ? harness.sheet : undefined, 'the probes and the coax pin'],
  ];
  return soldered.flatMap(([path, sheet, what]) =>
    sheet && NOT_SOLDERABLE.has(sheet.material.name)
      ? [
          warningFinding('cannot-be-soldered', path, {
            value: sheet.id,
            allowed: `does not take solder, and ${what} must be soldered to it`,
            remedy: 'use brass or copper, or bolt the joint and keep the metals apart from water',
          }),
        ]
      : [],
  );
}
