import type { Assembly } from '@sheetwave/geometry';
import { partMassKg } from '@sheetwave/geometry';
import { type EstimateReport, estimatedGain, type Prediction } from '@sheetwave/predict';
import { type AntennaGain, estimatedAntennaGain, predictedAntennaGain } from './antenna-gain.ts';

/** What a link needs to know of the antenna that a design makes. */
export interface LinkAntenna {
  readonly name: string;
  /** Undefined where neither a prediction nor the estimate has one. */
  readonly gain: AntennaGain | undefined;
  readonly reflector: { readonly widthM: number; readonly heightM: number };
  /** Of all parts with the coax; without a box, a pole clamp and solder. */
  readonly massKg: number;
  readonly band: { readonly lowHz: number; readonly highHz: number };
  /** Largest standing wave ratio over the band. */
  readonly vswr: number;
  readonly polarisation: 'vertical' | 'horizontal' | 'circular';
}

interface Known {
  readonly estimate: EstimateReport;
  /** A field solution of this very assembly as built, where there is one. */
  readonly prediction?: Prediction | undefined;
}

/** The antenna of an assembly, with its gain from the best that is known of it. */
export function antennaOf(assembly: Assembly, { estimate, prediction }: Known): LinkAntenna {
  const { design, parts, reflector } = assembly;
  const estimated = estimatedGain(estimate);
  const { polarisation, vswr } = design.targets;
  return {
    name: design.name,
    gain: (prediction && predictedAntennaGain(prediction)) ?? (estimated && estimatedAntennaGain(estimated)),
    reflector: { widthM: reflector.widthMm / 1000, heightM: reflector.heightMm / 1000 },
    massKg: parts.reduce((sum, part) => sum + part.quantity * partMassKg(part), 0),
    band: design.band,
    vswr,
    polarisation:
      polarisation === 'left-hand' || polarisation === 'right-hand'
        ? 'circular'
        : (polarisation ?? design.lattice.orientation),
  };
}
