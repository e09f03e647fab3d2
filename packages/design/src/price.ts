import type { Problem } from './quantity.ts';
import type { StockKind } from './stock/catalogue.ts';

/** What a price buys. `length` is one length of rod or tube as sold. */
export const PRICE_UNITS = ['piece', 'metre', 'length', 'sheet', 'board', 'm2', 'kg'] as const;
export type PriceUnit = (typeof PRICE_UNITS)[number];

/** What one kind of stock can be priced by. `hardware`: what the design has holes for and no stock. */
export const UNITS_OF: Readonly<Record<StockKind | 'hardware', readonly PriceUnit[]>> = {
  sheet: ['sheet', 'm2', 'kg'],
  rod: ['length', 'metre', 'kg'],
  tube: ['length', 'metre', 'kg'],
  spacer: ['piece'],
  screw: ['piece'],
  nut: ['piece'],
  washer: ['piece'],
  laminate: ['board', 'm2'],
  coax: ['metre'],
  connector: ['piece'],
  hardware: ['piece'],
};

/** A price as it is written. */
export interface WrittenPrice {
  /** In units of the currency, not below 0. */
  readonly amount: number;
  /** Three capitals (ISO 4217). */
  readonly currency: string;
  /** Size of a pack, at least 1; more than 1 only with pieces. */
  readonly count: number;
  readonly unit: PriceUnit;
}

export type PriceResult =
  | { readonly ok: true; readonly price: WrittenPrice }
  | { readonly ok: false; readonly problem: Problem };

const PRICE = /^\s*([+-]?\d+(?:\.\d*)?|\.\d+)\s*([A-Z]{3})\s+per\s+(?:(\d{1,5})\s+)?([a-z]+2?)\s*$/;
export const PRICE_PATTERN = PRICE.source;

const PLURALS: Readonly<Record<string, PriceUnit>> = { pieces: 'piece', meter: 'metre', m: 'metre' };
const LARGEST = 1e9;
const WRITE = 'write it such as "18.50 EUR per sheet" or "4.20 EUR per 100 pieces"';

/** Reads `"18.50 EUR per sheet"`. Never throws; what is wrong comes back in words. */
export function parsePrice(text: string): PriceResult {
  const [, digits = '', currency = '', pack, word = ''] = (text.length <= 60 && PRICE.exec(text)) || [];
  if (currency === '') return problemOfText(text);
  const unit = PLURALS[word] ?? PRICE_UNITS.find((known) => known === word);
  if (unit === undefined)
    return fail('unknown-unit', 'is for something that is not known', `write per ${listed(PRICE_UNITS)}`);
  const amount = Number(digits);
  if (digits.startsWith('-')) return fail('out-of-range', 'is below zero', 'give what it costs, 0 or more');
  if (amount > LARGEST) return fail('out-of-range', 'is more than 1000000000', 'give a smaller number');
  const count = pack === undefined ? 1 : Number(pack);
  if (count < 1 || (count > 1 && unit !== 'piece'))
    return fail('out-of-range', 'is for a number of them that makes no pack', 'give the price of one');
  return { ok: true, price: { amount, currency, count, unit } };
}

export const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;

function problemOfText(text: string): PriceResult {
  if (/^\s*[+-]?\d+,\d+\s/.test(text))
    return fail('decimal-comma', 'is written with a comma', 'write a decimal point, such as "18.50 EUR per sheet"');
  return fail('not-a-price', 'a price with its currency and what it is for', WRITE);
}

const fail = (code: string, allowed: string, remedy: string): PriceResult => ({
  ok: false,
  problem: { code, allowed, remedy },
});
