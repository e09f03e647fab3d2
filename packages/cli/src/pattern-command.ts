import { basename } from 'node:path';
import {
  type CrossFigures,
  type CutFigures,
  crossFigures,
  cutFigures,
  normalised,
  readTurntable,
  type Turntable,
} from '@sheetwave/bench';
import type { SoundDesign } from '@sheetwave/pack';
import { type Look, type PolarCut, polarChart } from '@sheetwave/plots';
import type { PatternCut } from '@sheetwave/predict';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { Failure, fileFailure, usageFailure } from './failure.ts';
import { frequencyText } from './number-words.ts';
import { quantityOption } from './quantity-option.ts';
import { readCheckedDesign } from './read-checked-design.ts';
import { readBytes, textOf } from './read-input.ts';
import { countText, findingLines, type Outcome } from './report.ts';
import { visible } from './terminal.ts';
import { textTable } from './text-table.ts';
import { writePlots } from './write-plots.ts';

const LARGEST_BYTES = 10_000_000;
const PLANES = ['vertical', 'horizontal'] as const;
const SIDES = { vertical: { right: 'up', left: 'down' }, horizontal: { right: 'right', left: 'left' } } as const;

/** `sheetwave pattern DESIGN CSV`. */
export async function runPattern(context: Context): Promise<Outcome> {
  const { operands, values } = context;
  const name = operands[1] ?? '';
  const plane = PLANES.find((word) => word === (values.get('plane') ?? 'horizontal'));
  if (plane === undefined)
    throw usageFailure(`--plane ${visible(values.get('plane') ?? '')} is not known; give vertical or horizontal`);
  const { checked } = await readCheckedDesign(context);
  const { design } = checked;
  const freqHz =
    quantityOption(values, 'freq', { units: { GHz: 1e9, MHz: 1e6 }, example: '"5.5 GHz"', least: 1e6 }) ??
    (design.band.lowHz + design.band.highHz) / 2;
  const turntable = await readFile(name, context);
  const zero = quantityOption(values, 'ahead', { units: { deg: 1 }, example: '"12 deg"' }) ?? 0;
  const measured = normalised(turned(turntable, zero));
  const own = figuresOf(measured);
  const predicted = await predictedCut(context, checked, { plane, freqHz });
  const cut = predicted && tableCut(predicted);
  const expected = cut && figuresOf(cut);
  const title = `${design.name}, revision ${design.revision}: ${plane} cut at ${frequencyText(freqHz)}`;
  const plots = await writePlots(context, {
    pattern: polarChart(
      { cuts: linesOf(measured, cut), unit: 'dB', sides: SIDES[plane] },
      {
        title: `${plane === 'vertical' ? 'Vertical' : 'Horizontal'} cut at ${frequencyText(freqHz)}`,
        about: title,
        name: 'pattern',
      },
    ),
  });
  return {
    exitCode: EXIT.done,
    json: {
      design: { name: design.name, revision: design.revision },
      plane,
      freqHz,
      readings: turntable.angleDeg.length,
      measured: jsonOf(own, measured),
      predicted:
        predicted === undefined || cut === undefined || expected === undefined
          ? null
          : { freqHz: predicted.freqHz, ...jsonOf(expected, cut) },
      plots,
      cautions: CAUTIONS,
    },
    text: `${[
      visible(title),
      `${visible(basename(name))}: ${turntable.angleDeg.length} readings, at most ${own.figures.largestStepDeg.toFixed(1)} degrees apart.`,
      '',
      ...tableOf(own, expected),
      '',
      predicted === undefined
        ? 'No prediction of this antenna is kept; sheetwave predict makes one.'
        : `Predicted at ${frequencyText(predicted.freqHz)}. Levels are against the highest of the wanted polarisation.`,
      ...plots.map((file) => `Drew ${visible(file)}`),
      '',
      ...CAUTIONS,
    ].join('\n')}\n`,
  };
}

const CAUTIONS: readonly string[] = [
  'The antenna sends while it turns: low power, nobody in the beam, and nobody near the turntable while it moves.',
  'Outdoors: no work on a mast or a roof edge while anything there sends, never alone, not in wind or thunder, and well clear of overhead lines; fall protection and local rules come first.',
];

interface Figures {
  readonly figures: CutFigures;
  readonly cross: CrossFigures | undefined;
}

const figuresOf = (cut: Turntable): Figures => ({ figures: cutFigures(cut), cross: crossFigures(cut) });

const jsonOf = ({ figures, cross }: Figures, cut: Turntable) => ({
  ...figures,
  cross: cross ?? null,
  ...cut,
  crossDb: cut.crossDb ?? null,
});

/** A predicted cut as if it were read off a turntable. */
const tableCut = ({ angleDeg, coDbi, crossDbi }: PatternCut): Turntable =>
  normalised({ angleDeg, levelDb: coDbi, crossDb: crossDbi });

async function readFile(name: string, { terminal, say }: Context): Promise<Turntable> {
  const text = textOf(await readBytes(name, terminal, LARGEST_BYTES));
  if (text === undefined) throw fileFailure('not-text', `${visible(name)} is not a text file in UTF-8; save it as CSV`);
  const reading = readTurntable(text);
  if (reading.ok) return reading.turntable;
  const { findings } = reading;
  say(findingLines(findings, visible(name), { output: terminal.stderr, env: terminal.env }));
  const message = `${visible(name)} cannot be used as a cut: ${countText(findings)}`;
  throw new Failure('bad-cut', EXIT.files, message, { findings });
}

/** The same readings from straight ahead, in rising order again. */
function turned({ angleDeg, levelDb, crossDb }: Turntable, zeroDeg: number): Turntable {
  const order = angleDeg
    .map((angle, i) => [((((angle - zeroDeg + 180) % 360) + 360) % 360) - 180, i] as const)
    .sort(([a], [b]) => a - b);
  const ordered = (levels: readonly number[]) => order.map(([, i]) => levels[i] ?? Number.NaN);
  return { angleDeg: order.map(([angle]) => angle), levelDb: ordered(levelDb), crossDb: crossDb && ordered(crossDb) };
}

interface Wanted {
  readonly plane: PatternCut['plane'];
  readonly freqHz: number;
}

/** The kept prediction's cut of this plane at the nearest frequency. */
async function predictedCut(context: Context, sound: SoundDesign, wanted: Wanted): Promise<PatternCut | undefined> {
  const { keptPrediction } = await import('./kept-prediction.ts');
  const kept = await keptPrediction(context, sound);
  const off = ({ freqHz }: PatternCut) => Math.abs(freqHz - wanted.freqHz);
  const cuts = kept?.record.prediction.cuts.filter(({ port, plane }) => port === 0 && plane === wanted.plane) ?? [];
  return [...cuts].sort((a, b) => off(a) - off(b))[0];
}

/** Each against its own highest value, as a turntable knows no gain; a crossed polarisation against the wanted one. */
function linesOf(measured: Turntable, predicted: Turntable | undefined): readonly PolarCut[] {
  const lineOf = (name: string, { angleDeg, levelDb }: Turntable, look: Look): PolarCut => ({
    name,
    angleRad: angleDeg.map((deg) => (deg * Math.PI) / 180),
    gainDbi: levelDb,
    look,
  });
  const across = (name: string, cut: Turntable, look: Look) =>
    cut.crossDb === undefined ? [] : [lineOf(name, closed({ ...cut, levelDb: cut.crossDb }), look)];
  return [
    lineOf('measured', closed(measured), 'full'),
    ...(predicted === undefined ? [] : [lineOf('predicted', predicted, 'dashed')]),
    ...across('measured, crossed', measured, 'dotted'),
  ];
}

/** The first reading once more at the end, where the turntable went all the way round. */
function closed(cut: Turntable): Turntable {
  const { angleDeg, levelDb } = cut;
  const [angle, level] = [angleDeg[0], levelDb[0]];
  const last = angleDeg.at(-1);
  if (angle === undefined || level === undefined || last === undefined || angle + 360 - last > 30) return cut;
  return { ...cut, angleDeg: [...angleDeg, angle], levelDb: [...levelDb, level] };
}

function tableOf(measured: Figures, predicted: Figures | undefined): readonly string[] {
  const row = (words: string, cell: (figures: Figures) => string) => [
    words,
    cell(measured),
    ...(predicted === undefined ? [] : [cell(predicted)]),
  ];
  const degrees = (value: number | undefined) => (value === undefined ? '-' : `${value.toFixed(1)} deg`);
  const decibels = (value: number | undefined) => (value === undefined ? '-' : `${value.toFixed(1)} dB`);
  const highest = (lobe: CutFigures['sideLobe']) =>
    lobe === undefined ? '-' : `${decibels(lobe.levelDb)} at ${degrees(lobe.angleDeg)}`;
  return textTable([
    ['', 'measured', ...(predicted === undefined ? [] : ['predicted'])],
    row('beam at', ({ figures: { beamDeg, peakDeg } }) => degrees(beamDeg ?? peakDeg)),
    row('half-power width', ({ figures }) => degrees(figures.beamwidthDeg)),
    row('front to back', ({ figures }) => decibels(figures.frontToBackDb)),
    row('highest side lobe', ({ figures: { sideLobe } }) => (sideLobe === undefined ? 'none' : highest(sideLobe))),
    ...(measured.cross === undefined
      ? []
      : [
          row('crossed, at the beam', ({ cross }) => decibels(cross?.atPeakDb)),
          row('crossed, within the width', ({ cross }) => decibels(cross?.inBeamDb)),
          row('crossed, highest', ({ cross }) => highest(cross?.highest)),
        ]),
  ]);
}
