import { basename } from 'node:path';
import {
  type Comparison,
  compareResponses,
  type FeaturePair,
  KIND_WORDS,
  readTouchstone,
  responseOfData,
  withoutCables,
} from '@sheetwave/bench';
import type { SoundDesign } from '@sheetwave/pack';
import {
  impedanceChart,
  type ReflectionCurve,
  reflectionChart,
  reflectionCurve,
  smithChart,
  vswrChart,
} from '@sheetwave/plots';
import type { Response } from '@sheetwave/rf';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { fileFailure, usageFailure } from './failure.ts';
import { cableLines, cableOf, type KnownCable } from './known-cable.ts';
import { frequencyText, ratioText } from './number-words.ts';
import { readCheckedDesign } from './read-checked-design.ts';
import { readBytes } from './read-input.ts';
import { readSweep, type Sweep } from './read-sweep.ts';
import { findingLines, type Outcome } from './report.ts';
import { visible } from './terminal.ts';
import { textTable } from './text-table.ts';
import { writePlots } from './write-plots.ts';

/** Largest prediction that is read. */
const LARGEST_BYTES = 64_000_000;

/** `sheetwave compare DESIGN SWEEP [--prediction FILE]`. */
export async function runCompare(context: Context): Promise<Outcome> {
  const { terminal, operands, values, say } = context;
  const { checked } = await readCheckedDesign(context);
  const { design } = checked;
  const sweepName = operands[1] ?? '';
  const port = portOption(values);
  const { response: predicted, found, doubts } = await expectedOf(context, checked);
  const sweep = await readSweep(sweepName, context);
  if (port >= sweep.file.ports)
    throw usageFailure(
      `--port ${port + 1}: ${visible(sweepName)} has ${sweep.file.ports} ${sweep.file.ports === 1 ? 'port' : 'ports'}`,
    );
  const one = onePort(sweep.file.response, port);
  const { lowHz, highHz } = design.band;
  const known = await cableOf(context, one, (lowHz + highHz) / 2);
  const measured = known === undefined ? one : withoutCables(one, [known.cable]);
  const comparison = compareResponses({
    band: design.band,
    targetVswr: design.targets.vswr,
    measured,
    predicted,
    referenceOhm: design.coax.coax.impedanceOhm,
    atAntenna: known !== undefined,
    ...(known?.fitted === undefined ? {} : { delayErrorS: known.fitted.delayErrorS }),
  });
  say(findingLines(comparison.findings, visible(sweepName), { output: terminal.stderr, env: terminal.env }));
  const title = `${design.name}, revision ${design.revision}`;
  const { findings } = comparison;
  const isUseless = findings.some(({ severity }) => severity === 'error');
  const plots = isUseless ? [] : await writePlots(context, figuresOf(title, { comparison, measured, predicted }));
  return {
    exitCode: isUseless ? EXIT.designHasErrors : EXIT.done,
    json: {
      design: { name: design.name, revision: design.revision },
      sweep: {
        name: sweepName,
        points: measured.freqHz.length,
        lowHz: measured.freqHz[0],
        highHz: measured.freqHz.at(-1),
        ports: sweep.file.ports,
        port: port + 1,
      },
      prediction:
        predicted === undefined
          ? null
          : {
              name: values.get('prediction') ?? null,
              found: found ?? null,
              origin: predicted.origin,
              method: predicted.method,
              error: predicted.error,
              doubts,
            },
      cable: known ?? null,
      comparison,
      findings: [...sweep.findings, ...findings],
      plots,
    },
    text: textOf({ title, sweep, comparison, predicted, found, known, plots, doubts }),
  };
}

interface Expected {
  readonly response: Response | undefined;
  /** Where a prediction that nobody named was found. */
  readonly found: string | undefined;
  /** What it leaves out. */
  readonly doubts: readonly string[];
}

/** The named prediction, else the one that is kept of this very antenna, else the estimate. */
async function expectedOf(context: Context, sound: SoundDesign): Promise<Expected> {
  const named = context.values.get('prediction');
  if (named !== undefined) return { response: await readPrediction(named, context), found: undefined, doubts: [] };
  const { keptPrediction } = await import('./kept-prediction.ts');
  const kept = await keptPrediction(context, sound);
  if (kept !== undefined) {
    const { request, prediction } = kept.record;
    return {
      response: prediction.response,
      found: `${kept.found}, quality ${request.quality}`,
      doubts: prediction.doubts,
    };
  }
  const { response, leavesOut } = sound.estimate;
  return { response, found: undefined, doubts: leavesOut };
}

function portOption(values: Context['values']): number {
  const text = values.get('port') ?? '1';
  if (/^[1-9]\d?$/.test(text)) return Number(text) - 1;
  throw usageFailure(`--port ${visible(text)} is not the number of a port; ports count from 1`);
}

/** One port of a sweep by itself, the others ending in the reference, as the instrument had them. */
function onePort(response: Response, port: number): Response {
  return { ...response, s: response.s.map((matrix) => [[matrix[port]?.[port] ?? { re: Number.NaN, im: Number.NaN }]]) };
}

async function readPrediction(name: string, { terminal }: Context): Promise<Response> {
  const bytes = await readBytes(name, terminal, LARGEST_BYTES);
  if (/\.(?:s\d+p|ts)$/i.test(name)) {
    const reading = readTouchstone(bytes, { name, method: `From ${basename(name)}.` });
    if (reading.ok)
      return { ...reading.file.response, origin: 'prediction', error: { origin: 'The file states none.' } };
  } else {
    const response = responseOfData(jsonOf(bytes));
    if (response !== undefined) return response;
  }
  throw fileFailure(
    'bad-prediction',
    `${visible(name)} holds no prediction; give what sheetwave predict --json prints, or a Touchstone file`,
  );
}

function jsonOf(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return undefined;
  }
}

interface Shown {
  readonly comparison: Comparison;
  readonly measured: Response;
  readonly predicted: Response | undefined;
}

function figuresOf(title: string, { comparison, measured, predicted }: Shown) {
  const { band, targetVswr } = comparison;
  const curves: readonly ReflectionCurve[] = [
    ...(predicted === undefined ? [] : [reflectionCurve(ORIGIN_WORDS[predicted.origin], predicted)]),
    reflectionCurve('measured', measured),
  ];
  const { freqHz } = measured;
  const span = { lowHz: freqHz[0] ?? band.lowHz, highHz: freqHz.at(-1) ?? band.highHz };
  const plot = { curves, target: { ...band, vswr: targetVswr }, span };
  return {
    reflection: reflectionChart(plot, { title: `${title}: reflection` }),
    vswr: vswrChart(plot, { title: `${title}: VSWR` }),
    impedance: impedanceChart(plot, { title: `${title}: impedance` }),
    ...(new Set(curves.map(({ referenceOhm }) => referenceOhm)).size === 1
      ? { smith: smithChart({ ...plot, curves }, { title: `${title}: reflection` }) }
      : {}),
  };
}

const ORIGIN_WORDS: Readonly<Record<Response['origin'], string>> = {
  estimate: 'estimated',
  prediction: 'predicted',
  measurement: 'measured before',
};

interface Report {
  readonly title: string;
  readonly sweep: Sweep;
  readonly comparison: Comparison;
  readonly predicted: Response | undefined;
  readonly found: string | undefined;
  readonly known: KnownCable | undefined;
  readonly plots: readonly string[];
  readonly doubts: readonly string[];
}

function textOf({ title, sweep, comparison, predicted, found, known, plots, doubts }: Report): string {
  const { freqHz } = sweep.file.response;
  const range = `${frequencyText(freqHz[0] ?? 0)} to ${frequencyText(freqHz.at(-1) ?? 0)}`;
  const against =
    predicted === undefined
      ? 'nothing, since no prediction is kept and closed forms do not hold'
      : `${ORIGIN_WORDS[predicted.origin]}${found === undefined ? '' : `, ${found}`} (${predicted.method})`;
  return `${[
    `${visible(title)}`,
    `Sweep ${visible(basename(sweep.name))}: ${freqHz.length} points, ${range}. Against: ${visible(against)}`,
    ...(known === undefined ? [] : cableLines(known)),
    ...(comparison.measured.noise === undefined
      ? []
      : [`Noise of the reflection: ${comparison.measured.noise.toFixed(4)} rms.`]),
    '',
    ...tableOf(comparison),
    '',
    ...comparison.verdict,
    ...(doubts.length === 0
      ? []
      : [
          '',
          `What the ${predicted?.origin === 'prediction' ? 'prediction' : 'estimate'} leaves out:`,
          ...doubts.map((doubt) => `  ${visible(doubt)}`),
        ]),
    ...(plots.length === 0 ? [] : ['', ...plots.map((name) => `Drew ${visible(name)}`)]),
  ].join('\n')}\n`;
}

function tableOf(comparison: Comparison): readonly string[] {
  const { measured, predicted, pairs, onlyMeasured, onlyPredicted } = comparison;
  const head = ['', 'measured', 'expected', 'difference', ''];
  const unpaired = (what: string, list: typeof onlyMeasured, own: 1 | 2) =>
    list.map(({ kind, freqHz }) => [
      KIND_WORDS[kind],
      ...(own === 1 ? [frequencyText(freqHz), '-'] : ['-', frequencyText(freqHz)]),
      '',
      what,
    ]);
  const width = (side: typeof measured | undefined) =>
    side?.atTwo === undefined
      ? '-'
      : `${(side.atTwo.widthHz / 1e6).toFixed(0)} MHz${side.atTwo.lowSeen && side.atTwo.highSeen ? '' : ' or more'}`;
  const worst = (side: typeof measured | undefined) =>
    side?.inBand === undefined ? '-' : ratioText(side.inBand.worst.vswr);
  const best = (side: typeof measured | undefined) =>
    side?.inBand === undefined ? '-' : ratioText(side.inBand.best.vswr);
  return textTable([
    head,
    ...pairs.map(pairRow),
    ...unpaired('in the sweep only', onlyMeasured, 1),
    ...unpaired('not in the sweep', onlyPredicted, 2),
    ['best VSWR in the band', best(measured), best(predicted), '', ''],
    ['worst VSWR in the band', worst(measured), worst(predicted), '', ''],
    [
      'width at VSWR 2',
      width(measured),
      width(predicted),
      comparison.widthDifferenceHz === undefined ? '' : `${signed(comparison.widthDifferenceHz / 1e6, 0)} MHz`,
      '',
    ],
  ]);
}

function pairRow({
  kind,
  measuredHz,
  predictedHz,
  differenceHz,
  differencePercent,
  withinError,
}: FeaturePair): readonly string[] {
  const judged = withinError === undefined ? '' : withinError ? 'within the stated error' : 'beyond the stated error';
  return [
    KIND_WORDS[kind],
    frequencyText(measuredHz),
    frequencyText(predictedHz),
    `${signed(differenceHz / 1e6, 1)} MHz (${signed(differencePercent, 2)} %)`,
    judged,
  ];
}

function signed(value: number, digits: number): string {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? text.replace('-', '') : `${value > 0 ? '+' : ''}${text}`;
}
