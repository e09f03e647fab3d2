import type { Site } from '@sheetwave/design';
import { noiseDbm, wifiRates } from '@sheetwave/rf';

/** One end as the budget sees it. dBm, dB, dBi. */
export interface BudgetEnd {
  readonly powerDbm: number;
  readonly cableDb: number;
  readonly gainDbi: number;
  /** What the antenna sends back into its cable. */
  readonly mismatchDb: number;
}

/** One way of the link. */
export interface Direction {
  readonly eirpDbm: number;
  /** At the socket of the receiving radio. */
  readonly receivedDbm: number;
  readonly overNoiseDb: number;
}

/** How a rate fares in the weaker direction. */
export interface RateMargin {
  readonly name: string;
  readonly bitsPerSecond: number;
  readonly sensitivityDbm: number;
  readonly marginDb: number;
}

export interface Budget {
  readonly toFar: Direction;
  readonly toNear: Direction;
  readonly noiseDbm: number;
  /** From slow to fast. */
  readonly rates: readonly RateMargin[];
}

/** Powers and margins over a path that loses `lossDb`. */
export function budgetOf(
  site: Site,
  ends: { readonly near: BudgetEnd; readonly far: BudgetEnd },
  lossDb: number,
): Budget {
  const { near, far } = ends;
  const floorDbm = noiseDbm(site.radio.widthMhz * 1e6, site.radio.noiseFigureDb);
  const one = (from: BudgetEnd, to: BudgetEnd): Direction => {
    const eirpDbm = from.powerDbm - from.cableDb - from.mismatchDb + from.gainDbi;
    const receivedDbm = eirpDbm - lossDb + to.gainDbi - to.mismatchDb - to.cableDb;
    return { eirpDbm, receivedDbm, overNoiseDb: receivedDbm - floorDbm };
  };
  const [toFar, toNear] = [one(near, far), one(far, near)];
  const weaker = Math.min(toFar.receivedDbm, toNear.receivedDbm);
  const rates = ratesOf(site).map((rate) => ({ ...rate, marginDb: weaker - rate.sensitivityDbm }));
  return { toFar, toNear, noiseDbm: floorDbm, rates };
}

/** What the radio sends with: its own list, or that of its standard. From slow to fast; empty when the standard has no such width. */
export function ratesOf({ radio }: Site): readonly Omit<RateMargin, 'marginDb'>[] {
  if (radio.rates.length > 0) {
    return radio.rates.map((rate) => ({ name: `${Number((rate.bitsPerSecond / 1e6).toFixed(3))} Mbit/s`, ...rate }));
  }
  return wifiRates(radio.standard, radio.widthMhz, radio.streams).map(({ name, modulation, ...rate }) => ({
    name: name.startsWith('MCS') ? `${name} (${modulation})` : modulation,
    ...rate,
  }));
}
