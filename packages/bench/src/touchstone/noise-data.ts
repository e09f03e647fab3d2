import { polar } from '@sheetwave/rf';
import type { LineReport } from './line-report.ts';
import { type FrequencyUnit, UNITS } from './options.ts';
import { collectRows } from './row-collector.ts';
import type { NoisePoint } from './touchstone-file.ts';

export interface NoiseReader {
  take(tokens: readonly string[], line: string): void;
  end(): void;
  readonly points: readonly NoisePoint[];
  readonly rows: number;
}

/**
 * Reads rows of noise: frequency, least noise figure (dB), magnitude and angle (degrees, whatever the option line says) of the best source,
 * effective noise resistance. Version 1 normalises the resistance to the reference, which `perOhm` undoes; version 2 gives ohms.
 */
export function createNoiseReader(unit: FrequencyUnit, perOhm: number, report: LineReport): NoiseReader {
  const points: NoisePoint[] = [];
  const shape = {
    count: 4,
    unitPlaces: UNITS[unit],
    oddLineBegins: true,
    remedy: 'give frequency, noise figure, magnitude, angle and resistance',
  };
  const collector = collectRows(
    shape,
    report,
    ({ freqHz, numbers: [figureDb = 0, size = 0, degrees = 0, resistance = 0] }) => {
      points.push({
        freqHz,
        minimumFigureDb: figureDb,
        optimumReflection: polar(size, (degrees * Math.PI) / 180),
        resistanceOhm: resistance * perOhm,
      });
    },
  );
  return {
    take: collector.take,
    end: collector.end,
    points,
    get rows() {
      return collector.rows;
    },
  };
}
