import type { Assembly } from '@sheetwave/geometry';
import { guidedWavelength } from '@sheetwave/rf';
import { type EstimateLine, lineOf } from './estimate-line.ts';
import {
  bandCentreHz,
  harnessLine,
  harnessRuns,
  matchedHarnessLossDb,
  wantedElementImpedance,
} from './harness-model.ts';

/** Lines of the harness: what each piece is, what the elements should show, and what it loses. */
export function harnessEstimateLines(assembly: Assembly): EstimateLine[] {
  const { design } = assembly;
  if (assembly.harness.length === 0) return [];
  const freqHz = bandCentreHz(design);
  const pieces = harnessRuns(assembly).map(({ level, sizeMm, lengthMm, role }) => {
    const { impedance, constants } = harnessLine(design, sizeMm, freqHz);
    const waves = lengthMm / 1000 / guidedWavelength(freqHz, constants.effectivePermittivity);
    const name = role === 'section' ? 'section' : 'line';
    const what = `Harness level ${level}, ${name} of ${sizeMm} mm, ${lengthMm.toFixed(1)} mm or ${waves.toFixed(3)} wavelengths long`;
    return lineOf(impedance, { what, unit: 'ohm', digits: 1 });
  });
  return [...pieces, ...wantedLines(assembly, freqHz), lossLine(assembly, freqHz)];
}

const WANTED_ORIGIN =
  'Lines of the impedances above, joined without regard to bends, junctions and coupling (common practice: within a fifth).';

function wantedLines(assembly: Assembly, freqHz: number): EstimateLine[] {
  const wanted = wantedElementImpedance(assembly, freqHz);
  if (!wanted) return [];
  const size = Math.hypot(wanted.re, wanted.im);
  const part = (what: string, value: number): EstimateLine => ({
    what,
    value,
    unit: 'ohm',
    error: 0.2 * size,
    digits: 0,
    origin: WANTED_ORIGIN,
    doubts: [],
  });
  return [
    part('Resistance each element should show for a match at the coax', wanted.re),
    part('Reactance each element should show for a match at the coax', wanted.im),
  ];
}

function lossLine(assembly: Assembly, freqHz: number): EstimateLine {
  const value = matchedHarnessLossDb(assembly, freqHz);
  return {
    what: 'Loss of the harness from coax to element, matched',
    value,
    unit: 'dB',
    error: Math.max(0.05, 0.5 * value),
    digits: 2,
    origin:
      'Skin effect by the incremental-inductance rule and dielectric loss; solder joints and radiation of the lines are not in it (half of it is a guess).',
    doubts: [],
  };
}
