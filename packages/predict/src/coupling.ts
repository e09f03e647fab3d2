import type { Design } from '@sheetwave/design';
import { add, complex, magnitude, type Response } from '@sheetwave/rf';
import type { Coupling, PairCoupling } from './prediction.ts';

const decibels = (amplitude: number): number => 20 * Math.log10(amplitude);

/** Coupling between the ports of a response within the design's band; undefined for a single port. */
export function couplingOf(response: Response, { band }: Design): Coupling | undefined {
  const ports = response.s[0]?.length ?? 0;
  const inBand = [...response.freqHz.entries()].filter(([, f]) => f >= band.lowHz && f <= band.highHz);
  if (ports < 2 || inBand.length === 0) return undefined;
  const numbers = Array.from({ length: ports }, (_, n) => n);
  const centre = nearest(inBand, (band.lowHz + band.highHz) / 2);
  const sizeOf = (index: number, to: number, from: number) => magnitude(response.s[index]?.[to]?.[from] ?? complex(0));
  const pairs = numbers.flatMap((to) =>
    numbers.slice(0, to).map((from): PairCoupling => {
      const worst = inBand.reduce((a, b) => (sizeOf(b[0], to, from) > sizeOf(a[0], to, from) ? b : a));
      return {
        from,
        to,
        worstDb: decibels(sizeOf(worst[0], to, from)),
        worstHz: worst[1],
        centreDb: decibels(sizeOf(centre, to, from)),
      };
    }),
  );
  const active = inBand.flatMap(([index]) =>
    (response.s[index] ?? []).map((row) => magnitude(row.reduce(add, complex(0)))),
  );
  return {
    pairs: pairs.sort((a, b) => b.worstDb - a.worstDb),
    activeReflectionDb: decibels(Math.max(...active)),
  };
}

function nearest(entries: readonly (readonly [number, number])[], wanted: number): number {
  const [first] = entries;
  if (!first) throw new RangeError('no frequency to choose from');
  return entries.reduce((a, b) => (Math.abs(b[1] - wanted) < Math.abs(a[1] - wanted) ? b : a), first)[0];
}
