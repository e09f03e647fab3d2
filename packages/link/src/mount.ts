import type { SiteCover } from '@sheetwave/design';
import {
  bandQuality,
  coverShift,
  coverWave,
  exposureDistanceM,
  exposureLevel,
  FREE_FIELD,
  FULL_REFLECTION,
  farFieldM,
  magnitude,
  PLATE_DRAG,
  wavelength,
  windForceN,
  windPressurePa,
} from '@sheetwave/rf';
import type { LinkAntenna } from './antenna.ts';

/** How far people must stay from the front while it sends without pause. */
export interface Exposure {
  readonly body: 'icnirp' | 'us';
  readonly wPerM2: number;
  readonly source: string;
  readonly certainty: 'confirmed' | 'memory';
  /** In the open, and where the ground throws everything back. Metres. */
  readonly openM: number;
  readonly reflectedM: number;
  /** The larger distance lies within the near field of the antenna, where the formula overstates. */
  readonly inNearField: boolean;
}

/** Distances for the general public by both bodies. `largestM`: the largest side of the antenna, when it is known. */
export function exposuresOf(eirpDbm: number, freqHz: number, largestM: number | undefined): readonly Exposure[] {
  const watts = 10 ** ((eirpDbm - 30) / 10);
  return (['icnirp', 'us'] as const).map((body) => {
    const level = exposureLevel(body, freqHz);
    const reflectedM = exposureDistanceM(watts, level.wPerM2, FULL_REFLECTION);
    const lambda = wavelength(freqHz);
    return {
      ...level,
      openM: exposureDistanceM(watts, level.wPerM2, FREE_FIELD),
      reflectedM,
      inNearField: reflectedM < farFieldM(largestM ?? lambda / 2, lambda),
    };
  });
}

export interface WindLoad {
  readonly speedMPerS: number;
  readonly pressurePa: number;
  readonly drag: number;
  readonly areaM2: number;
  readonly forceN: number;
}

/** The wind square on a reflector. */
export function windOn(reflector: { readonly widthM: number; readonly heightM: number }, speedMPerS: number): WindLoad {
  const areaM2 = reflector.widthM * reflector.heightM;
  return {
    speedMPerS,
    pressurePa: windPressurePa(speedMPerS),
    drag: PLATE_DRAG,
    areaM2,
    forceN: windForceN(speedMPerS, areaM2),
  };
}

/** What a cover does, to first order. */
export interface CoverEffect {
  /** Share of the field that it throws back. */
  readonly reflection: number;
  readonly lossDb: number;
  /** How far the resonance may move either way, and where the phase at this distance takes it; undefined without a design. */
  readonly shift: { readonly mostHz: number; readonly hz: number; readonly quality: number } | undefined;
  /** False when the cover lies in the near field of the patches, where only a field calculation or a sweep tells. */
  readonly holds: boolean;
}

/** The effect of a flat cover; the quality of the antenna follows from its band and standing wave ratio. */
export function coverEffect(cover: SiteCover, freqHz: number, antenna: LinkAntenna | undefined): CoverEffect {
  const sheet = {
    thicknessM: cover.thicknessMm / 1000,
    permittivity: cover.permittivity,
    lossTangent: cover.lossTangent,
  };
  const { reflection, lossDb } = coverWave(sheet, freqHz);
  const distanceM = cover.distanceMm / 1000;
  const quality = antenna && bandQuality(antenna.band.lowHz, antenna.band.highHz, antenna.vswr);
  const moved = coverShift(reflection, distanceM, quality ?? 1, freqHz);
  return {
    reflection: magnitude(reflection),
    lossDb,
    shift: quality === undefined ? undefined : { mostHz: moved.mostShare * freqHz, hz: moved.share * freqHz, quality },
    holds: moved.holds,
  };
}
