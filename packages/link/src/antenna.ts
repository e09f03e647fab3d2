import type { Assembly } from '@sheetwave/geometry';
import { partMassKg } from '@sheetwave/geometry';
import { type EstimateReport, estimatedGain } from '@sheetwave/predict';

/** What a link needs to know of the antenna that a design makes. */
export interface LinkAntenna {
  readonly name: string;
  /** Straight ahead, and how far it may be off; undefined where the estimate has none. */
  readonly gain: { readonly dbi: number; readonly errorDb: number } | undefined;
  readonly reflector: { readonly widthM: number; readonly heightM: number };
  /** Of all parts with the coax; without a box, a pole clamp and solder. */
  readonly massKg: number;
  readonly band: { readonly lowHz: number; readonly highHz: number };
  /** Largest standing wave ratio over the band. */
  readonly vswr: number;
  readonly polarisation: 'vertical' | 'horizontal' | 'circular';
}

/** The antenna of an assembly with its estimate. */
export function antennaOf(assembly: Assembly, estimate: EstimateReport): LinkAntenna {
  const { design, parts, reflector } = assembly;
  const gain = estimatedGain(estimate);
  const { polarisation, vswr } = design.targets;
  return {
    name: design.name,
    gain: gain && { dbi: gain.value, errorDb: gain.error },
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
