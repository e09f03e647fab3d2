import type { Design } from '@sheetwave/design';
import { plain } from '@sheetwave/drawings';
import { gainChart, type PolarCut, polarChart, reflectionCurve } from '@sheetwave/plots';
import type { EstimateReport, Prediction } from '@sheetwave/predict';
import { figureBlock, list, type PlanBlock, paragraph, table } from '../document.ts';
import { ofFigure } from '../figure-block.ts';
import { reflectionFigure } from './reflection-figure.ts';

/** What a field solution says of the antenna: curves, numbers with their errors, and what it leaves out. */
export function predictionBlocks(
  design: Design,
  prediction: Prediction,
  estimate: EstimateReport,
): readonly PlanBlock[] {
  return [
    paragraph(
      `Predicted by a field solution of the antenna as drawn (${prediction.quality} grid). ${errorWords(prediction)}`,
    ),
    ...matchTable(design, prediction),
    figureBlock(reflection(design, prediction, estimate)),
    ...gainTable(design, prediction),
    ...gainBlocks(design, prediction),
    ...patternBlocks(design, prediction),
    ...(prediction.doubts.length === 0 ? [] : [paragraph('The prediction leaves out:'), list(prediction.doubts)]),
  ];
}

function errorWords({ response, meshError }: Prediction): string {
  const { frequency, coefficient, gainDb, origin } = response.error;
  const known = [
    ...(frequency === undefined ? [] : [`frequencies ± ${plain(frequency * 100, 1)} %`]),
    ...(coefficient === undefined ? [] : [`reflection ± ${plain(coefficient, 2)}`]),
    ...(gainDb === undefined ? [] : [`gain ± ${plain(gainDb, 1)} dB`]),
  ];
  const second = meshError === undefined ? ' Only one grid was solved.' : '';
  return `${known.length === 0 ? 'Its error is not known.' : `Expected error: ${known.join(', ')}.`} ${origin}${second}`;
}

/** Beyond 20 all but nothing enters the antenna, and how little no longer matters. */
const vswrText = (vswr: number): string => (vswr > 20 ? 'above 20' : plain(vswr));

const ghz = (hz: number): string => plain(hz / 1e9, 3);

function matchTable({ targets }: Design, { matches }: Prediction): readonly PlanBlock[] {
  const rows = matches.map(({ lowHz, highHz, worstVswr, worstHz, bestVswr, bestHz }) => [
    `${ghz(lowHz)} to ${ghz(highHz)} GHz`,
    `${vswrText(worstVswr)} at ${ghz(worstHz)} GHz`,
    `${vswrText(bestVswr)} at ${ghz(bestHz)} GHz`,
    plain(targets.vswr),
  ]);
  return rows.length === 0
    ? []
    : [table('Predicted match', ['band', 'worst VSWR', 'best VSWR of the sweep', 'wanted'], rows)];
}

function reflection({ band, targets }: Design, prediction: Prediction, { response }: EstimateReport) {
  const curves = [
    reflectionCurve('prediction', prediction.response),
    ...(response === undefined ? [] : [reflectionCurve('estimate', response)]),
  ];
  return reflectionFigure({ curves, band, vswr: targets.vswr }, { id: 'plot-reflection', by: 'Predicted' });
}

/** Those within the band that is asked for; all, where none is. */
function within<T extends { readonly freqHz: number }>({ band }: Design, all: readonly T[]): readonly T[] {
  const inside = all.filter(({ freqHz }) => freqHz >= band.lowHz && freqHz <= band.highHz);
  return inside.length === 0 ? all : inside;
}

function gainTable(design: Design, { figures }: Prediction): readonly PlanBlock[] {
  const rows = within(design, figures).map((one) => [
    `${ghz(one.freqHz)} GHz`,
    plain(one.realisedGainDbi, 1),
    plain(one.gainAheadDbi, 1),
    degrees(one.beamwidthVerticalDeg),
    degrees(one.beamwidthHorizontalDeg),
    plain(one.frontToBackDb, 0),
    `${plain(one.efficiency * 100, 0)} %`,
  ]);
  const head = [
    'at',
    'gain with mismatch, dBi',
    'gain ahead, dBi',
    'beam vertical',
    'beam horizontal',
    'front to back, dB',
    'efficiency',
  ];
  return rows.length === 0 ? [] : [table('Predicted gain', head, rows)];
}

const degrees = (value: number | undefined): string => (value === undefined ? 'none' : `${plain(value, 0)}°`);

/** Gain over the sweep, of the first port. */
function gainBlocks({ band, targets }: Design, { gains, response }: Prediction): readonly PlanBlock[] {
  const [curve] = gains;
  if (curve === undefined || curve.freqHz.length < 2) return [];
  const { gainDb } = response.error;
  const plot = {
    ...curve,
    ...(gainDb === undefined ? {} : { errorDb: gainDb }),
    target: { ...band, ...(targets.gainDbi === undefined ? {} : { gainDbi: targets.gainDbi }) },
  };
  const about = `Predicted gain over frequency, with the band from ${ghz(band.lowHz)} to ${ghz(band.highHz)} GHz.`;
  const figure = gainChart(plot, { title: 'Gain over frequency', about, name: 'plot-gain' });
  return [figureBlock(ofFigure('plot-gain', 'Predicted gain over frequency.', figure))];
}

/** The two principal cuts at the frequency in the middle of those within the band. */
function patternBlocks(design: Design, { cuts }: Prediction): readonly PlanBlock[] {
  const frequencies = [...new Set(within(design, cuts).map(({ freqHz }) => freqHz))];
  const freqHz = frequencies[Math.floor(frequencies.length / 2)];
  const chosen = cuts.filter((cut) => cut.freqHz === freqHz && cut.port === 0);
  if (freqHz === undefined || chosen.length === 0) return [];
  const shown = chosen.map(
    ({ plane, angleDeg, coDbi }): PolarCut => ({
      name: plane,
      angleRad: angleDeg.map((value) => (value * Math.PI) / 180),
      gainDbi: coDbi,
    }),
  );
  const title = `Pattern at ${ghz(freqHz)} GHz`;
  const about = `Predicted gain around the antenna at ${ghz(freqHz)} GHz, vertical and horizontal plane, straight ahead at the top.`;
  const figure = polarChart(
    { cuts: shown, sides: { right: 'up or right', left: 'down or left' } },
    { title, about, name: 'plot-pattern' },
  );
  return [figureBlock(ofFigure('plot-pattern', `Predicted pattern at ${ghz(freqHz)} GHz.`, figure))];
}
