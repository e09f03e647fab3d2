import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { partMassKg } from '@sheetwave/geometry';
import { checkDesign, makePack } from '@sheetwave/pack';
import {
  cautions,
  makePlan,
  type PlanDocument,
  partLines,
  type SolvedSensitivities,
  sheetLines,
} from '@sheetwave/plan';
import type { Prediction } from '@sheetwave/predict';

/** The text of an example's design. */
export const exampleText = (name: string): string =>
  readFileSync(fileURLToPath(new URL(`../examples/${name}/design.toml`, import.meta.url)), 'utf8');

/** The build plan of a design, with what it is made from. Throws when the design cannot be made. */
export function planOf(
  designText: string,
  files: Parameters<typeof makePlan>[0]['files'] = [],
  prediction?: Prediction,
  sensitivities?: SolvedSensitivities,
) {
  const checked = checkDesign({ designText });
  if (!checked.ok) throw new Error(JSON.stringify(checked.findings));
  const { assembly, estimate, findings } = checked;
  const plan: PlanDocument = makePlan({
    assembly,
    estimate,
    prediction,
    sensitivities,
    findings,
    files,
    notes: [],
    parts: partLines({ parts: assembly.parts, files, massKg: partMassKg }),
    sheets: sheetLines(checked.sheets),
    cautions: cautions(assembly),
    toolVersion: '0.0.0',
  });
  return { plan, assembly, design: checked.design };
}

/** The same with the files of its whole pack. */
export async function planOfPack(designText: string) {
  const made = await makePack({ designText, toolVersion: '0.0.0' });
  if (!made.ok) throw new Error(JSON.stringify(made.findings));
  const files = made.files.map(({ path, kind, part }) => ({ path, kind: kind as 'summary', part }));
  return { ...planOf(designText, files), pack: new Map(made.files.map(({ path, bytes }) => [path, bytes])) };
}
