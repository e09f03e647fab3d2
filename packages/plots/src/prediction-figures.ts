import type { Figure } from '@sheetwave/drawings';
import type { PatternCut, Prediction } from '@sheetwave/predict';
import type { Response } from '@sheetwave/rf';
import { gainChart } from './gain-chart.ts';
import { type PolarCut, polarChart } from './polar-chart.ts';
import { type FrequencyPlot, impedanceChart, reflectionChart, vswrChart } from './reflection-charts.ts';
import { type ReflectionCurve, reflectionCurve } from './reflection-curve.ts';
import { smithChart } from './smith-chart.ts';

/** What the diagrams of a prediction are drawn against. */
export interface PredictionSetting {
  /** The design's band, Hz, and the VSWR that is wanted in it. */
  readonly lowHz: number;
  readonly highHz: number;
  readonly vswr: number;
  /** The least gain that is wanted in it. */
  readonly gainDbi?: number;
  /** A response of the same antenna from elsewhere: the estimate, or a measurement. */
  readonly beside?: { readonly name: string; readonly response: Response };
}

/** The diagrams of a prediction, each under a plain name for its file. Cuts are those at the frequency nearest to the middle of the band. */
export function predictionFigures(
  prediction: Prediction,
  setting: PredictionSetting,
): readonly { readonly name: string; readonly figure: Figure }[] {
  const { lowHz, highHz, vswr } = setting;
  const curves = curvesOf(prediction, setting);
  const plot: FrequencyPlot = { curves, target: { lowHz, highHz, vswr }, span: spanOf(prediction) };
  const place = prediction.feed === 'as-built' ? 'at the coax' : 'at the elements';
  const edges = [lowHz, highHz].map((freqHz) => ({ freqHz, label: `${shortGhz(freqHz)} GHz` }));
  return [
    { name: 'return-loss', figure: reflectionChart(plot, { title: `Reflection ${place}`, name: 'return-loss' }) },
    { name: 'vswr', figure: vswrChart(plot, { title: `VSWR ${place}`, name: 'vswr' }) },
    {
      name: 'impedance',
      figure: impedanceChart(
        { ...plot, curves: ownCurves(prediction) },
        { title: `Impedance ${place}`, name: 'impedance' },
      ),
    },
    {
      name: 'smith-chart',
      figure: smithChart(
        { curves, marks: edges, vswr },
        { title: `Reflection ${place}, Smith chart`, name: 'smith-chart' },
      ),
    },
    ...gainFigures(prediction, setting),
    ...cutFigures(prediction, (lowHz + highHz) / 2),
  ];
}

const shortGhz = (hz: number): string => String(Number((hz / 1e9).toFixed(4)));

function ownCurves({ ports, response }: Prediction): readonly ReflectionCurve[] {
  if (ports.length === 1) return [reflectionCurve('predicted', response)];
  return ports.map(({ name }, port) => {
    // Many ports differ by the look whose turn it is, and their bands would cover one another.
    const { look: _, error: __, ...curve } = reflectionCurve(name, response, port);
    return curve;
  });
}

function curvesOf(prediction: Prediction, { beside }: PredictionSetting): readonly ReflectionCurve[] {
  const own = ownCurves(prediction);
  if (beside === undefined || beside.response.referenceOhm !== prediction.response.referenceOhm) return own;
  return [...own, reflectionCurve(beside.name, beside.response)];
}

function spanOf({ response: { freqHz } }: Prediction): { readonly lowHz: number; readonly highHz: number } {
  const [lowHz, highHz] = [freqHz[0], freqHz.at(-1)];
  if (lowHz === undefined || highHz === undefined)
    throw new RangeError('a prediction without frequencies cannot be drawn.');
  return { lowHz, highHz };
}

function gainFigures(
  { gains, ports, response }: Prediction,
  { lowHz, highHz, gainDbi }: PredictionSetting,
): readonly { readonly name: string; readonly figure: Figure }[] {
  const [own] = gains;
  if (own === undefined || own.freqHz.length < 2) return [];
  const { gainDb } = response.error;
  const plot = {
    ...own,
    ...(gainDb !== undefined && { errorDb: gainDb }),
    target: { lowHz, highHz, ...(gainDbi !== undefined && { gainDbi }) },
  };
  const at = ports.length > 1 ? `, driven at ${ports[own.port]?.name}` : '';
  return [{ name: 'gain', figure: gainChart(plot, { title: `Gain over frequency${at}`, name: 'gain' }) }];
}

const SIDES = { vertical: { right: 'up', left: 'down' }, horizontal: { right: 'right', left: 'left' } } as const;

function cutFigures(
  { cuts }: Prediction,
  centreHz: number,
): readonly { readonly name: string; readonly figure: Figure }[] {
  const own = cuts.filter(({ port }) => port === 0);
  return (['vertical', 'horizontal'] as const).flatMap((plane) => {
    const cut = nearest(
      own.filter((one) => one.plane === plane),
      centreHz,
    );
    if (cut === undefined) return [];
    const title = `Gain at ${shortGhz(cut.freqHz)} GHz, ${plane} cut`;
    const name = `cut-${plane}`;
    return [{ name, figure: polarChart({ cuts: linesOf(cut), sides: SIDES[plane] }, { title, name }) }];
  });
}

function nearest(cuts: readonly PatternCut[], hz: number): PatternCut | undefined {
  return cuts.reduce<PatternCut | undefined>(
    (best, cut) => (best !== undefined && Math.abs(best.freqHz - hz) <= Math.abs(cut.freqHz - hz) ? best : cut),
    undefined,
  );
}

function linesOf({ angleDeg, coDbi, crossDbi }: PatternCut): readonly PolarCut[] {
  const angleRad = angleDeg.map((deg) => (deg * Math.PI) / 180);
  return [
    { name: 'wanted polarisation', angleRad, gainDbi: coDbi, look: 'full' },
    { name: 'across it', angleRad, gainDbi: crossDbi, look: 'dashed' },
  ];
}
