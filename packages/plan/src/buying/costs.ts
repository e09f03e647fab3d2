import { type Design, mountHardware, type Price, type PriceUnit } from '@sheetwave/design';
import type { Part } from '@sheetwave/geometry';
import { numberText } from '../number-text.ts';
import type { PartLine } from '../parts-list.ts';
import { currencyDecimals, moneyText, roundMoney } from './currency.ts';

/** What one stock costs, for all lines of the list that it is bought for. */
export interface CostLine {
  /** Id of the first of its lines: there the cost stands. */
  readonly line: string;
  /** Id of the stock. */
  readonly id: string;
  /** What is paid for: `2 sheets`, `0.34 metre`, `3 × 10 pieces`. */
  readonly amount: string;
  /** `18.50 EUR per sheet`. */
  readonly price: string;
  /** Rounded, in units of the currency. */
  readonly cost: number;
}

/** What the antenna costs by the prices of its design file. */
export interface Costs {
  readonly currency: string;
  readonly lines: readonly CostLine[];
  /** Sum of the lines, in units of the currency. */
  readonly total: number;
  /** What has no price: ids of stock, or words for what has no stock. */
  readonly missing: readonly string[];
  /** How the numbers are rounded and what they leave out. */
  readonly rule: string;
}

export interface CostsInput {
  readonly design: Pick<Design, 'prices'>;
  readonly parts: readonly Part[];
  /** The lines of the parts. */
  readonly lines: readonly PartLine[];
  /** What is bought beside them. */
  readonly shopping: readonly PartLine[];
}

/** The costs, or undefined when the design gives no prices. Parts cut from sheet, rod or tube cost nothing themselves: what they are cut from does. */
export function costsOf({ design: { prices }, parts, lines, shopping }: CostsInput): Costs | undefined {
  if (prices === undefined) return undefined;
  const { currency } = prices;
  const isCut = new Set(
    parts.filter(({ form }) => form === 'plate' || form === 'rod' || form === 'tube').map(({ id }) => id),
  );
  const bought = groupsOf([...lines.filter(({ id }) => !isCut.has(id)), ...shopping]);
  const priceOf = new Map(prices.of.map((price) => [price.id, price]));
  const costs = [...bought].flatMap(([id, group]) => costLine(id, { group, price: priceOf.get(id), currency }) ?? []);
  const paid = new Set(costs.map(({ id }) => id));
  return {
    currency,
    lines: costs,
    total: roundMoney(
      costs.reduce((sum, { cost }) => sum + cost, 0),
      currency,
    ),
    missing: [...new Set([...bought.keys(), ...lines.map(keyOf)])].filter((key) => !paid.has(key)),
    rule: ruleOf(currency),
  };
}

function groupsOf(lines: readonly PartLine[]): ReadonlyMap<string, readonly PartLine[]> {
  const groups = new Map<string, readonly PartLine[]>();
  for (const line of lines) groups.set(keyOf(line), [...(groups.get(keyOf(line)) ?? []), line]);
  return groups;
}

const HARDWARE: readonly string[] = mountHardware;

function keyOf({ id, stock, label }: PartLine): string {
  if (stock !== '') return stock;
  return HARDWARE.includes(id) ? id : label;
}

interface Group {
  readonly group: readonly PartLine[];
  readonly price: Price | undefined;
  readonly currency: string;
}

/** Undefined when there is no price, or when a line does not say how long or large it is. */
function costLine(id: string, { group, price, currency }: Group): CostLine | undefined {
  const [first] = group;
  if (price === undefined || first === undefined) return undefined;
  const needed = group.reduce((sum, line) => sum + line.quantity * oneOf(line, price.unit), 0);
  if (!Number.isFinite(needed)) return undefined;
  const packs = price.unit === 'piece' ? Math.ceil(needed / price.count) : needed;
  return {
    line: first.id,
    id,
    amount: amountText(packs, price),
    price: `${priceNumber(price.amount, currency)} ${currency} per ${unitText(price)}`,
    cost: roundMoney(packs * price.amount, currency),
  };
}

/** How much of the unit one piece of a line is; NaN when the line does not say. */
function oneOf(line: PartLine, unit: PriceUnit): number {
  switch (unit) {
    case 'piece':
    case 'sheet':
    case 'board':
    case 'length':
      return 1;
    case 'metre':
      return (line.lengthMm ?? Number.NaN) / 1000;
    case 'm2':
      return (line.areaMm2 ?? Number.NaN) * 1e-6;
    case 'kg':
      return line.massG / 1000;
  }
}

const unitText = ({ count, unit }: Price): string => (count > 1 ? `${count} pieces` : unit);

function amountText(packs: number, { count, unit }: Price): string {
  if (count > 1) return `${packs} × ${count} pieces`;
  if (unit === 'm2' || unit === 'kg' || unit === 'metre') return `${numberText(packs, 4)} ${unit}`;
  return packs === 1 ? `1 ${unit}` : `${packs} ${unit}s`;
}

/** All that was written, and at least the decimals of the currency. */
function priceNumber(amount: number, currency: string): string {
  const short = moneyText(amount, currency);
  return Number(short) === amount ? short : String(amount);
}

function ruleOf(currency: string): string {
  const step = (10 ** -currencyDecimals(currency)).toFixed(currencyDecimals(currency));
  return `Each cost is rounded to ${step} ${currency}, a half upwards; the total is the sum of the rounded costs. Packs, sheets and lengths are counted whole. Solder, flux, spares, tools and postage are not counted.`;
}

/** `total`, or `total without: brass-0.5, printing plastic`. */
export function totalText({ missing }: Costs): string {
  return missing.length === 0 ? 'total' : `total without: ${missing.join(', ')}`;
}
