import type { AxisSpan } from './xy-chart.ts';

/** Frequencies in the unit that reads best: GHz, or MHz where none reaches 1 GHz. */
export interface FrequencyAxis {
  readonly span: AxisSpan;
  /** From Hz to the unit of the axis. */
  readonly shown: (hz: number) => number;
}

/** The axis over all sweeps. Throws RangeError when they span nothing. */
export function frequencyAxis(
  sweeps: readonly (readonly number[])[],
  span?: { readonly lowHz: number; readonly highHz: number },
): FrequencyAxis {
  const all = sweeps.flat();
  const lowHz = span?.lowHz ?? least(all);
  const highHz = span?.highHz ?? -least(all.map((hz) => -hz));
  const mega = highHz < 1e9;
  const scale = mega ? 1e-6 : 1e-9;
  const shown = (hz: number): number => hz * scale;
  return { span: { label: `frequency, ${mega ? 'MHz' : 'GHz'}`, from: shown(lowHz), to: shown(highHz) }, shown };
}

const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
