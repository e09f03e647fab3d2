import type { Design } from '@sheetwave/design';
import { type Response, vswrBands, vswrInBand } from '@sheetwave/rf';
import type { BandMatch, MatchedBand } from './prediction.ts';

const USUAL_VSWR = 2;

/** Stretches of the sweep with a match of VSWR 2 and of the design's target, for each port. */
export function matchedBands(response: Response, { targets }: Design): MatchedBand[] {
  const limits = [...new Set([USUAL_VSWR, targets.vswr])].sort((a, b) => b - a);
  return portsOf(response).flatMap((port) =>
    limits.flatMap((vswr) =>
      vswrBands(response, vswr, port).map((band) => matchedBand(response, { ...band, port, vswr })),
    ),
  );
}

const portsOf = ({ s }: Response): number[] => [...(s[0] ?? []).keys()];

interface Stretch {
  readonly port: number;
  readonly vswr: number;
  readonly lowHz: number;
  readonly highHz: number;
  readonly lowSeen: boolean;
  readonly highSeen: boolean;
}

function matchedBand(response: Response, { port, vswr, lowHz, highHz, lowSeen, highSeen }: Stretch): MatchedBand {
  const best = vswrInBand(response, { lowHz, highHz }, port)?.best ?? { vswr, freqHz: lowHz };
  return {
    port,
    vswr,
    lowHz,
    highHz,
    percent: (200 * (highHz - lowHz)) / (highHz + lowHz),
    isCutOffLow: !lowSeen,
    isCutOffHigh: !highSeen,
    bestVswr: best.vswr,
    bestHz: best.freqHz,
  };
}

/** The match of each port over the design's band, as far as the sweep reaches; none for a sweep that passes it by. */
export function bandMatches(response: Response, { band }: Design): BandMatch[] {
  const [first, last] = [response.freqHz[0] ?? 0, response.freqHz.at(-1) ?? 0];
  return portsOf(response).flatMap((port) => {
    const inside = vswrInBand(response, band, port);
    const whole = vswrInBand(response, { lowHz: first, highHz: last }, port);
    if (!inside || !whole) return [];
    return [
      {
        port,
        lowHz: inside.lowHz,
        highHz: inside.highHz,
        worstVswr: inside.worst.vswr,
        worstHz: inside.worst.freqHz,
        bestVswr: whole.best.vswr,
        bestHz: whole.best.freqHz,
      },
    ];
  });
}
