import { type Cable, type FittedCable, fitCableEnd, fitDelay } from '@sheetwave/bench';
import type { Response } from '@sheetwave/rf';
import type { Context } from './context.ts';
import { usageFailure } from './failure.ts';
import { quantityOption } from './quantity-option.ts';
import { readSweep } from './read-sweep.ts';

/** What is known of the cable, and how. */
export interface KnownCable {
  readonly cable: Cable;
  /** Undefined for numbers that the user gave. */
  readonly fitted: FittedCable | undefined;
}

/** The cable that the options speak of, if any. Throws a Failure for one that cannot be found out. */
export async function cableOf(context: Context, sweep: Response, lossAtHz: number): Promise<KnownCable | undefined> {
  const { values } = context;
  const ways = ['cable', 'cable-open', 'cable-short'].filter((name) => values.has(name));
  if (ways.length > 1) throw usageFailure(`--${ways[0]} and --${ways[1]} say the same thing twice; give one`);
  const lossDb = quantityOption(values, 'cable-loss', { units: { dB: 1 }, example: '"0.4 dB"', least: 0 });
  const end = values.has('cable-open') ? 'open' : values.has('cable-short') ? 'short' : undefined;
  if (end !== undefined) return fromEnd(context, end);
  const text = values.get('cable');
  if (text === undefined) {
    if (lossDb !== undefined) throw usageFailure('--cable-loss needs --cable: say how long it is too');
    return undefined;
  }
  if (text === 'fit') {
    const found = fitDelay(sweep);
    if (!found.ok) throw usageFailure(`the cable cannot be found in this sweep: ${found.why}`);
    return { cable: { ...found.fit.cable, lossDb: lossDb ?? 0, lossAtHz }, fitted: found.fit };
  }
  const delayS = quantityOption(values, 'cable', {
    units: { ns: 1e-9, ps: 1e-12 },
    example: '"1.25 ns" or fit',
    least: 0,
  });
  return { cable: { delayS: delayS ?? 0, lossDb: lossDb ?? 0, lossAtHz }, fitted: undefined };
}

async function fromEnd(context: Context, end: 'open' | 'short'): Promise<KnownCable> {
  const name = context.values.get(`cable-${end}`) ?? '';
  if (context.values.has('cable-loss')) throw usageFailure(`--cable-loss is found from --cable-${end}; leave it out`);
  const { file } = await readSweep(name, context);
  const found = fitCableEnd(file.response, end);
  if (!found.ok) throw usageFailure(`the cable cannot be found in ${name}: ${found.why}`);
  return { cable: found.fit.cable, fitted: found.fit };
}

/** Lines on the cable for a person. */
export function cableLines({ cable, fitted }: KnownCable): readonly string[] {
  const delay = `${(cable.delayS * 1e9).toFixed(3)} ns`;
  const loss = `${cable.lossDb.toFixed(2)} dB at ${(cable.lossAtHz / 1e9).toFixed(3)} GHz`;
  if (fitted === undefined) return [`Cable taken out as given: ${delay} one way, ${loss}.`];
  const lossError = fitted.lossErrorDb === undefined ? '' : ` ± ${fitted.lossErrorDb.toFixed(2)} dB`;
  return [
    `Cable taken out: ${delay} ± ${(fitted.delayErrorS * 1e9).toFixed(3)} ns one way, ${loss}${lossError}.`,
    `  ${fitted.basis}`,
  ];
}
