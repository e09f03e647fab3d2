import { basename } from 'node:path';
import {
  againstReference,
  checkSweep,
  coversBand,
  type HistorySource,
  readingsInMetres,
  readReadings,
  type TrimPast,
  trimAdvice,
  trimPast,
  trimSweep,
  withoutCables,
} from '@sheetwave/bench';
import type { Design, Finding } from '@sheetwave/design';
import type { Response } from '@sheetwave/rf';
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
      sweeps: [...earlier, trimSweep(sweep.response, {})],
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
  if (!coversBand(response, design.band)) {
    const message = `${visible(name)} does not cover the band of the design; sweep at least that, and a tenth more on each side`;
    throw new Failure('band-not-covered', EXIT.files, message, { findings: [...findings, ...odd] });
  }
  return { response, findings: [...findings, ...odd] };
}

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
  return { readings: readingsInMetres(result.readings), findings: result.findings };
}

/** Earlier sweeps and readings of the build log. */
async function pastOf(context: Context, { checked, drawings }: CheckedDesign, now: Response): Promise<TrimPast> {
  const { operand = '-', terminal, switches } = context;
  if (operand === '-' || switches.has('no-log')) return { sweeps: [], readings: {} };
  const folder = buildLogFolder(operand, terminal.workingFolder);
  const { log } = await openBuildLog(folder);
  const sources: HistorySource[] = [];
  for (const entry of log.entries) sources.push(await sourceOf(entry, { folder, drawings, context, lost: [] }));
  const past = trimPast(sources, checked.design, now);
  const count = past.sweeps.length;
  if (count > 0) {
    const added = count === 1 ? 'one sweep' : `${count} sweeps`;
    context.say(`The build log ${visible(basename(folder))} adds ${added}.\n`);
  }
  return past;
}
