import { coverMaterialNames, coverMaterials } from '@sheetwave/design';
import { type CoverPrediction, coverReport, type FlatCover } from '@sheetwave/predict';
import type { Context } from './context.ts';
import { cachedCover, coverKey, keepCover } from './cover-cache.ts';
import { EXIT } from './exit-code.ts';
import { Failure, usageFailure } from './failure.ts';
import { withProgress } from './find-prediction.ts';
import { cacheFolder } from './kept-files.ts';
import { type PredictOptions, predictOptions } from './predict-options.ts';
import { predictionText } from './prediction-text.ts';
import { timeText } from './progress-line.ts';
import { quantityOption } from './quantity-option.ts';
import { type CheckedDesign, readCheckedDesign } from './read-checked-design.ts';
import { nameOfInput } from './read-input.ts';
import { findingLines, type Outcome } from './report.ts';
import { readSiteFile } from './site-file.ts';
import { coverSolverFor } from './solver.ts';
import { knownSpeed, usualSpeed } from './solver-speed.ts';
import { visible } from './terminal.ts';
import { stoppedCode } from './write-made.ts';

const MILLIMETRES = { units: { mm: 1, cm: 10, in: 25.4 }, example: '"2 mm"' };
const THINNEST_MM = 0.01;
const THICKEST_MM = 50;
const FARTHEST_MM = 1000;

/** `sheetwave cover DESIGN`. */
export async function runCover(context: Context): Promise<Outcome> {
  const options = predictOptions(context.switches, context.values);
  const read = await readCheckedDesign(context);
  const cover = coverOfOptions(context.values) ?? (await coverOfSite(context));
  const { prediction, isFromCache } = await found(context, { read, cover, options });
  const report = coverReport(prediction);
  const { name, revision } = read.checked.design;
  return {
    exitCode: EXIT.done,
    json: { design: { name, revision }, isFromCache, prediction, report },
    text: `${visible(predictionText({ ...report, heading: `${name}, revision ${revision}: ${report.heading}`, tables: [report.table] }), true)}\n`,
  };
}

interface Wish {
  readonly read: CheckedDesign;
  readonly cover: FlatCover;
  readonly options: PredictOptions;
}

async function found(
  context: Context,
  { read, cover, options }: Wish,
): Promise<{ readonly prediction: CoverPrediction; readonly isFromCache: boolean }> {
  const { terminal, say } = context;
  const solver = coverSolverFor(read.checked, cover, options);
  const folder = cacheFolder(terminal.env);
  const key = coverKey(read.checked, cover, options.request.quality);
  const known = options.useCache ? await cachedCover(folder, key) : undefined;
  if (known !== undefined) {
    say('This very antenna was solved with this cover before; --no-cache solves it again.\n');
    return { prediction: known, isFromCache: true };
  }
  const speed = (await knownSpeed(folder, solver.threads)) ?? usualSpeed(solver.threads);
  say(`Solving with and without the cover, each on two grids: about ${timeText(solver.work / speed)}.\n`);
  const { value, by } = await terminal.interruptible(async (signal) => {
    try {
      const solve = (onProgress: Parameters<typeof solver.solve>[0]['onProgress']) =>
        solver.solve({ signal, onProgress });
      return { done: await withProgress(context, options.showProgress, solve) };
    } catch (error) {
      if (signal.aborted) return undefined;
      throw error;
    }
  });
  if (value === undefined || by !== undefined)
    throw new Failure('interrupted', stoppedCode(by), 'interrupted; nothing was kept');
  if (options.useCache && !(await keepCover(folder, key, value.done)))
    say(`What was solved could not be kept in ${folder}; it will be solved again next time.\n`);
  return { prediction: value.done, isFromCache: false };
}

const GIVEN = ['material', 'permittivity', 'loss-tangent', 'thickness', 'distance'] as const;
const EXAMPLE = '--material asa --thickness "2 mm" --distance "26 mm"';

/** The cover of the options; undefined when none of them is given. Throws a usage Failure for one that is not whole. */
function coverOfOptions(values: ReadonlyMap<string, string>): FlatCover | undefined {
  if (!GIVEN.some((name) => values.has(name))) return undefined;
  const thicknessMm = lengthMm(values, 'thickness', { least: THINNEST_MM, most: THICKEST_MM });
  const distanceMm = lengthMm(values, 'distance', { least: 0, most: FARTHEST_MM });
  return { thicknessMm, distanceMm, ...dielectricOf(values) };
}

function lengthMm(
  values: ReadonlyMap<string, string>,
  name: string,
  { least, most }: { readonly least: number; readonly most: number },
): number {
  const value = quantityOption(values, name, MILLIMETRES);
  if (value === undefined) throw usageFailure(`a cover needs --${name}; write it whole, as in ${EXAMPLE}`);
  if (value < least || value > most)
    throw usageFailure(`--${name} ${visible(values.get(name) ?? '')} is outside ${least} to ${most} mm`);
  return value;
}

function dielectricOf(values: ReadonlyMap<string, string>): Pick<FlatCover, 'permittivity' | 'lossTangent'> {
  const material = values.get('material');
  if (material === undefined) {
    const permittivity = numberOption(values, 'permittivity', { least: 1, most: 30 });
    if (permittivity === undefined) throw usageFailure(`a cover needs --material or --permittivity; as in ${EXAMPLE}`);
    return { permittivity, lossTangent: numberOption(values, 'loss-tangent', { least: 0, most: 1 }) ?? 0 };
  }
  if (values.has('permittivity') || values.has('loss-tangent'))
    throw usageFailure('--material says what --permittivity and --loss-tangent say; give one or the other');
  const known = coverMaterialNames.find((name) => name === material);
  if (known === undefined)
    throw usageFailure(
      `--material ${visible(material)} is not known; give ${coverMaterialNames.join(', ')}, or --permittivity`,
    );
  return coverMaterials[known];
}

function numberOption(
  values: ReadonlyMap<string, string>,
  name: string,
  { least, most }: { readonly least: number; readonly most: number },
): number | undefined {
  const given = values.get(name);
  if (given === undefined) return undefined;
  const value = /^\d+(?:\.\d+)?$/.test(given) ? Number(given) : Number.NaN;
  if (!(value >= least && value <= most))
    throw usageFailure(`--${name} ${visible(given)} is not a number from ${least} to ${most}`);
  return value;
}

/** The cover of the site. Throws a Failure for a site with errors, and for one without a cover. */
async function coverOfSite(context: Context): Promise<FlatCover> {
  const { terminal, say } = context;
  const { name, profilePath, read } = await readSiteFile(context);
  if (read.site === undefined) {
    const look = { output: terminal.stderr, env: terminal.env };
    say(findingLines(read.findings, nameOfInput(name), look));
    say(findingLines(read.profileFindings, profilePath, look));
    const findings = [...read.findings, ...read.profileFindings];
    throw new Failure('bad-site', EXIT.designHasErrors, `${nameOfInput(name)} has to be sound first`, { findings });
  }
  const { cover } = read.site;
  if (cover === undefined)
    throw usageFailure(`${nameOfInput(name)} has no [cover]; give it one, or say which cover, as in ${EXAMPLE}`);
  return cover;
}
