import { ELECTRIC_CONSTANT, FREE_SPACE_IMPEDANCE, SPEED_OF_LIGHT } from './constants.ts';
import { dualSpacings, type Grid, spacings } from './grid.ts';
import type { AxisNumbers, HalfStepNumbers } from './memory.ts';
import { AXES, type Axis } from './update.ts';

/** Grading of the layer, J. A. Roden and S. D. Gedney, Microw. Opt. Technol. Lett. 27 (2000) 334. */
const ORDER = 3;
const STRETCH = 3;
/** Of the conductivity, relative to (order + 1) over impedance and cell. */
const STRENGTH = 0.6;
/** S/m: the shift of the pole that lets slow and evanescent fields pass into the layer. */
const SHIFT = 0.05;

export interface StepNumbers {
  /** s. */
  readonly dt: number;
  /** rad/m, largest wave number along the axis at the centre of the band, at a place. */
  readonly waveNumber: (axis: Axis, place: number) => number;
}

/** The numbers of both half steps along all axes: inverse spacings with the stretch of the layers, and its memory. */
export function axisNumbers(grid: Grid, step: StepNumbers): { electric: HalfStepNumbers; magnetic: HalfStepNumbers } {
  const each = (half: 'electric' | 'magnetic') =>
    Object.fromEntries(AXES.map((axis) => [axis, numbersAlong(grid, axis, { ...step, half })])) as Record<
      Axis,
      AxisNumbers
    >;
  return { electric: each('electric'), magnetic: each('magnetic') };
}

/**
 * A central difference over a cell d makes sin(k d/2)/(d/2) of a wave number k: too little by (k d)^2/24. For waves of
 * the centre of the band along the axis the whole of it would be right, for waves in all directions three fifths
 * (J. B. Cole, IEEE Trans. MTT-45 (1997) 991, on differences that are exact at one frequency); resonators lie between.
 */
const DISPERSION_SHARE = 0.8;

const dispersionGain = (waveNumber: number, length: number): number =>
  1 + (DISPERSION_SHARE * (waveNumber * length) ** 2) / 24;

type HalfStep = StepNumbers & { readonly half: 'electric' | 'magnetic' };

function numbersAlong(grid: Grid, axis: Axis, { half, dt, waveNumber }: HalfStep): AxisNumbers {
  const lines = grid.lines[axis];
  const lengths = half === 'electric' ? dualSpacings(lines) : spacings(lines);
  const inverse = new Float64Array(lines.length);
  const b = new Float64Array(lines.length);
  const c = new Float64Array(lines.length);
  lengths.forEach((length, n) => {
    const place = half === 'electric' ? (lines[n] as number) : ((lines[n] as number) + (lines[n + 1] as number)) / 2;
    const layer = layerAt(grid, axis, place);
    // At a plane of symmetry the half cell stands for a whole one.
    const whole = half === 'electric' && n === 0 ? 2 * length : length;
    const gain = dispersionGain(waveNumber(axis, place), whole);
    inverse[n] = (gain * SPEED_OF_LIGHT * dt) / (length * layer.stretch);
    const old = Math.exp((-(layer.conductivity / layer.stretch + layer.shift) * dt) / ELECTRIC_CONSTANT);
    if (layer.conductivity === 0) return;
    b[n] = old;
    // a/kappa of the paper times kappa: the term it multiplies already holds 1/kappa.
    c[n] = (layer.conductivity * (old - 1)) / (layer.conductivity + layer.stretch * layer.shift);
  });
  return { inverse, b, c };
}

interface LayerPoint {
  readonly conductivity: number;
  readonly stretch: number;
  readonly shift: number;
}

function layerAt(grid: Grid, axis: Axis, place: number): LayerPoint {
  const lines = grid.lines[axis];
  const { low, high } = grid.layers[axis];
  const last = lines.length - 1;
  const lowDepth = ((lines[low] as number) - place) / Math.max(1e-30, (lines[low] as number) - (lines[0] as number));
  const inner = lines[last - high] as number;
  const highDepth = (place - inner) / Math.max(1e-30, (lines[last] as number) - inner);
  const isLow = low > 0 && lowDepth > 1e-9;
  const depth = isLow ? lowDepth : high > 0 && highDepth > 1e-9 ? highDepth : 0;
  const cell = isLow
    ? (lines[1] as number) - (lines[0] as number)
    : (lines[last] as number) - (lines[last - 1] as number);
  const best = (STRENGTH * (ORDER + 1)) / (FREE_SPACE_IMPEDANCE * cell);
  return {
    conductivity: best * depth ** ORDER,
    stretch: 1 + (STRETCH - 1) * depth ** ORDER,
    shift: SHIFT * (1 - depth),
  };
}
