import { basename } from 'node:path';
import {
  againstReference,
  checkSweep,
  type HistorySource,
  readReadings,
  type TrimSweep,
  trimAdvice,
  withoutCables,
} from '@sheetwave/bench';
import { type Design, dimensionsOf, type Finding } from '@sheetwave/design';
import { portReflection, type Response } from '@sheetwave/rf';
import { buildLogFolder, openBuildLog } from './build-log-folder.ts';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { Failure } from './failure.ts';
import { cableOf } from './known-cable.ts';
import { sourceOf } from './log-source.ts';
import { pairOf } from './measured-option.ts';
import type { CheckedDesign } from './read-checked-design.ts';
import { readSweep } from './read-sweep.ts';
import { countText, findingLines, type Outcome } from './report.ts';
import { type Measured, measuredSlopes } from './sensitivity-command.ts';
import { visible } from './terminal.ts';
import { trimFigures, trimJson, trimText } from './trim-text.ts';
import { writePlots } from './write-plots.ts';

/** `sheetwave trim DESIGN SWEEP`. */
export async function runTrim(context: Context): Promise<Outcome> {
  const sweepName = context.operands[1] ?? '';
  const prepare = async (read: CheckedDesign) => {
    const sweep = await sweepAtAntenna(context, sweepName, read.checked.design);
    return { sweep, now: readingsNow(context, read.checked.design), past: await pastOf(context, read, sweep.response) };
  };
  const then = async ({ read, found }: Measured, { sweep, now, past }: Awaited<ReturnType<typeof prepare>>) => {
    const { design } = read.checked;
    const known = new Set(found.model.dimensions.map(({ path }) => path));
    const ofModel = (values: Readonly<Record<string, number>>) =>
      Object.fromEntries(Object.entries(values).filter(([path]) => known.has(path)));
    const earlier = past.sweeps.map((one) => ({ ...one, changes: ofModel(one.changes) }));
    const advice = trimAdvice({
      model: found.model,
      sweeps: [...earlier, sweepOf(sweep.response, {})],
      readings: ofModel({ ...past.readings, ...now.readings }),
      wantedVswr: design.targets.vswr,
    });
    const shown = { design, advice, measured: sweep.response, earlier: earlier.length };
    const plots = await writePlots(context, trimFigures(shown));
    return {
      exitCode: EXIT.done,
      json: { ...trimJson(shown), solves: found.solves, findings: [...sweep.findings, ...now.findings], plots },
      text: trimText(shown, plots),
    };
  };
  return measuredSlopes(context, { prepare, then });
}

const sweepOf = (response: Response, changes: TrimSweep['changes']): TrimSweep => ({
  freqHz: response.freqHz,
  reflection: portReflection(response),
  changes,
});

interface SoundSweep {
  readonly response: Response;
  readonly findings: readonly Finding[];
}

/** The first port of a sweep with its cable taken out, against the coax of the antenna. Throws a Failure for one that does not cover the band. */
async function sweepAtAntenna(context: Context, name: string, design: Design): Promise<SoundSweep> {
  const { file, findings } = await readSweep(name, context);
  const one = firstPort(file.response);
  const known = await cableOf(context, one, (design.band.lowHz + design.band.highHz) / 2);
  const referenceOhm = design.coax.coax.impedanceOhm;
  const response = againstReference(known === undefined ? one : withoutCables(one, [known.cable]), referenceOhm);
  const odd = checkSweep(response, { band: design.band, referenceOhm, cableRemoved: known !== undefined });
  context.say(findingLines(odd, visible(name), { output: context.terminal.stderr, env: context.terminal.env }));
  if (!coversBand(response, design)) {
    const message = `${visible(name)} does not cover the band of the design; sweep at least that, and a tenth more on each side`;
    throw new Failure('band-not-covered', EXIT.files, message, { findings: [...findings, ...odd] });
  }
  return { response, findings: [...findings, ...odd] };
}

/** A hundredth beyond the band on each side is needed, for a model that may resonate a little beside the antenna. */
const coversBand = ({ freqHz }: Response, { band }: Design): boolean =>
  (freqHz[0] ?? Number.POSITIVE_INFINITY) * 1.01 <= band.lowHz && (freqHz.at(-1) ?? 0) * 0.99 >= band.highHz;

const firstPort = (response: Response): Response => ({
  ...response,
  s: response.s.map((matrix) => [[matrix[0]?.[0] ?? { re: Number.NaN, im: Number.NaN }]]),
});

interface ReadingsNow {
  readonly readings: Readonly<Record<string, number>>;
  readonly findings: readonly Finding[];
}

/** What `--measured` says, in m. */
function readingsNow({ lists, terminal, say }: Context, design: Design): ReadingsNow {
  const result = readReadings(design, (lists.get('measured') ?? []).map(pairOf));
  say(findingLines(result.findings, '', { output: terminal.stderr, env: terminal.env }).replaceAll(': : ', ': '));
  if (!result.ok) {
    throw new Failure('bad-readings', EXIT.usage, `nothing was worked out: ${countText(result.findings)}`, {
      findings: result.findings,
    });
  }
  return { readings: inMetres(result.readings), findings: result.findings };
}

const inMetres = (mm: Readonly<Record<string, number>>): Readonly<Record<string, number>> =>
  Object.fromEntries(Object.entries(mm).map(([path, value]) => [path, value / 1000]));

interface Past {
  readonly sweeps: readonly TrimSweep[];
  /** Sizes now, by what the caliper read of them then; m. */
  readonly readings: Readonly<Record<string, number>>;
}

/** Earlier sweeps and readings of the build log, as far as the design then had the same dimensions. The sweep in hand may be in it already. */
async function pastOf(context: Context, { checked, drawings }: CheckedDesign, now: Response): Promise<Past> {
  const { operand = '-', terminal, switches } = context;
  if (operand === '-' || switches.has('no-log')) return { sweeps: [], readings: {} };
  const folder = buildLogFolder(operand, terminal.workingFolder);
  const { log } = await openBuildLog(folder);
  const sources: HistorySource[] = [];
  for (const entry of log.entries) sources.push(await sourceOf(entry, { folder, drawings, context, lost: [] }));
  const { design } = checked;
  const told = sources.flatMap((source) => earlierOf(source, design, now));
  if (told.length > 0) {
    context.say(
      `The build log ${visible(basename(folder))} adds ${told.length === 1 ? 'one sweep' : `${told.length} sweeps`}.\n`,
    );
  }
  return { sweeps: told, readings: Object.assign({}, ...sources.map((source) => readingsOf(source, design))) };
}

/** What the design had then less what it has now, m; undefined when it had other dimensions. */
function changesSince(then: Design | undefined, now: Design): Readonly<Record<string, number>> | undefined {
  if (then === undefined) return undefined;
  const before = new Map(dimensionsOf(then).map(({ path, nominal }) => [path, nominal]));
  const dimensions = dimensionsOf(now);
  if (before.size !== dimensions.length || dimensions.some(({ path }) => !before.has(path))) return undefined;
  return Object.fromEntries(
    dimensions.flatMap(({ path, nominal, unit }): readonly [string, number][] => {
      const change = (before.get(path) ?? nominal) - nominal;
      return change === 0 ? [] : [[path, unit === 'mm' ? change / 1000 : change]];
    }),
  );
}

function earlierOf({ entry, design, sweep }: HistorySource, now: Design, present: Response): readonly TrimSweep[] {
  const changes = changesSince(design, now);
  if (sweep === undefined || changes === undefined) return [];
  const { cable } = entry.sweep ?? {};
  const bare = cable === undefined ? sweep : withoutCables(sweep, [cable]);
  const response = againstReference(bare, now.coax.coax.impedanceOhm);
  const same = JSON.stringify(response.s) === JSON.stringify(present.s);
  return same || !coversBand(response, now) ? [] : [sweepOf(response, changes)];
}

/** A size read then, with what the design has changed since. */
function readingsOf({ entry, design }: HistorySource, now: Design): Readonly<Record<string, number>> {
  const changes = changesSince(design, now);
  if (changes === undefined) return {};
  return Object.fromEntries(
    Object.entries(inMetres(entry.measuredMm ?? {})).map(([path, size]) => [path, size - (changes[path] ?? 0)]),
  );
}
