import type { Figure } from '@sheetwave/drawings';
import {
  barChart,
  impedanceChart,
  polarChart,
  type ReflectionCurve,
  reflectionChart,
  smithChart,
  vswrChart,
  xyChart,
} from '@sheetwave/plots';
import { reflection } from '@sheetwave/rf';

/**
 * A series resonant circuit: R + jR Q (f/f0 - f0/f). Invented values: what is drawn is judged, not what an antenna does.
 */
export function circuit(
  name: string,
  { ohm, freqHz: resonanceHz, quality }: { readonly ohm: number; readonly freqHz: number; readonly quality: number },
): ReflectionCurve {
  const freqHz = Array.from({ length: 81 }, (_, i) => 5e9 + i * 2e7);
  const impedance = (hz: number) => ({ re: ohm, im: ohm * quality * (hz / resonanceHz - resonanceHz / hz) });
  return { name, freqHz, reflection: freqHz.map((hz) => reflection(impedance(hz), 50)), referenceOhm: 50 };
}

const curves: readonly ReflectionCurve[] = [
  {
    ...circuit('predicted', { ohm: 42, freqHz: 5.8e9, quality: 14 }),
    look: 'full',
    error: { frequency: 0.008, coefficient: 0.02 },
  },
  { ...circuit('estimated', { ohm: 60, freqHz: 5.7e9, quality: 18 }), look: 'dashed' },
  { ...circuit('measured', { ohm: 46, freqHz: 5.84e9, quality: 13 }), look: 'ringed' },
];
const target = { lowHz: 5.725e9, highHz: 5.875e9, vswr: 1.5 };

/** Gain of a cut: a beam with side lobes and something behind. Invented. */
function cutOf(name: string, peakDbi: number) {
  const angleRad = Array.from({ length: 121 }, (_, i) => ((i - 60) * Math.PI) / 60);
  const power = (a: number) => Math.max(0, Math.cos(a)) ** 2 * Math.cos(3 * a) ** 2 + 0.003 * Math.sin(a / 2) ** 2;
  return { name, angleRad, gainDbi: angleRad.map((a) => peakDbi + 10 * Math.log10(power(a))) };
}

const ground = Array.from({ length: 33 }, (_, i) => ({
  x: i * 20,
  y: 4 + 3 * Math.sin(i / 3) + (i > 20 && i < 24 ? 5 : 0),
}));

/** One diagram of each kind, by its name. */
export const samplePlots: Readonly<Record<string, Figure>> = {
  reflection: reflectionChart(
    { curves, target, marks: [{ freqHz: 5.8e9, label: 'resonance 5.80 GHz' }] },
    { title: 'Reflection at the coax' },
  ),
  vswr: vswrChart({ curves, target }, { title: 'VSWR at the coax' }),
  impedance: impedanceChart({ curves: curves.slice(0, 1), target }, { title: 'Impedance at the coax' }),
  smith: smithChart(
    {
      curves,
      marks: [
        { freqHz: 5.725e9, label: '5.725' },
        { freqHz: 5.875e9, label: '5.875 GHz' },
      ],
      vswr: 1.5,
    },
    { title: 'Reflection in the Smith chart' },
  ),
  polar: polarChart(
    { cuts: [cutOf('co-polar', 13.8), cutOf('cross-polar', -6)], sides: { right: 'up', left: 'down' } },
    { title: 'Gain at 5.8 GHz, upright cut' },
  ),
  bars: barChart(
    {
      bars: [
        { name: 'driven patch, length', value: -21.4, error: 0.8 },
        { name: 'first parasitic, length', value: -14.2, error: 0.5 },
        { name: 'spacer', value: 3.4, error: 1.2 },
        { name: 'feed distance', value: 0 },
      ],
      label: 'shift of the resonance for 0.1 mm more, MHz',
    },
    { title: 'What a tenth of a millimetre does' },
  ),
  history: xyChart(
    {
      x: { label: 'revision', from: 0.5, to: 3.5, ticks: { values: [1, 2, 3], texts: ['A', 'B', 'C'] } },
      y: { label: 'resonance, GHz', from: 5.6, to: 5.9 },
      curves: [
        {
          name: 'predicted',
          points: [5.7, 5.75, 5.81].map((y, i) => ({ x: i + 1, y })),
          marksEach: true,
          band: { lower: [5.66, 5.71, 5.77], upper: [5.74, 5.79, 5.85] },
        },
        {
          name: 'measured',
          points: [5.68, Number.NaN, 5.8].map((y, i) => ({ x: i + 1, y })),
          look: 'ringed',
          marksEach: true,
        },
      ],
      limits: [{ y: 5.8, label: 'centre of the band' }],
    },
    { title: 'Revisions and sweeps' },
  ),
  path: xyChart(
    {
      x: { label: 'distance from the boathouse, m', from: 0, to: 640 },
      y: { label: 'height, m', from: 0, to: 20 },
      curves: [
        { name: 'ground and trees', points: ground, look: 'dotted', filled: true },
        {
          name: 'line of sight',
          points: [
            { x: 0, y: 12 },
            { x: 640, y: 14 },
          ],
        },
      ],
    },
    { title: 'Path to the cottage' },
  ),
};
