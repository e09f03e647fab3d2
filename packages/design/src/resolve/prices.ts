import type { Prices } from '../design.ts';
import { nearestWords } from '../nearest.ts';
import { listed, type PriceUnit, UNITS_OF, type WrittenPrice } from '../price.ts';
import type { StockKind } from '../stock/catalogue.ts';
import { mountHardware } from '../stock/mount-hardware.ts';
import type { Context } from './context.ts';

/** `[prices]` as the design holds it: every id is of stock, every price in what that stock is sold by, all in one currency. */
export function resolvePrices(context: Context): Prices | undefined {
  const written = Object.entries(context.file.prices ?? {});
  const [first] = written;
  if (first === undefined) return undefined;
  const [, { currency }] = first;
  const kinds = kindsById(context);
  const sound = written.filter(([id, price]) => check(context, { id, price, currency, kinds }));
  return { currency, of: sound.map(([id, { amount, count, unit }]) => ({ id, amount, count, unit })) };
}

type Kinds = ReadonlyMap<string, StockKind | 'hardware'>;

function kindsById({ stock }: Context): Kinds {
  const kinds = new Map<string, StockKind | 'hardware'>(mountHardware.map((id) => [id, 'hardware']));
  for (const kind of Object.keys(stock) as StockKind[]) for (const { id } of stock[kind]) kinds.set(id, kind);
  return kinds;
}

interface Written {
  readonly id: string;
  readonly price: WrittenPrice;
  readonly currency: string;
  readonly kinds: Kinds;
}

function check({ report }: Context, { id, price, currency, kinds }: Written): boolean {
  const path = ['prices', id];
  const kind = kinds.get(id);
  if (kind === undefined) {
    report.error({
      code: 'unknown-stock',
      path,
      value: `"${id}"`,
      allowed: 'an id of stock',
      remedy: remedyFor(id, [...kinds.keys()]),
    });
    return false;
  }
  if (price.currency !== currency) {
    report.error({
      code: 'two-currencies',
      path,
      value: price.currency,
      allowed: `is not the currency of the first price, ${currency}`,
      remedy: 'give all prices in one currency',
    });
    return false;
  }
  const units: readonly PriceUnit[] = UNITS_OF[kind];
  if (units.includes(price.unit)) return true;
  report.error({
    code: 'wrong-unit',
    path,
    value: `per ${price.unit}`,
    allowed: 'is not what this is sold by',
    remedy: `give it per ${listed(units)}`,
  });
  return false;
}

function remedyFor(id: string, known: readonly string[]): string {
  const near = nearestWords(id, known, 3);
  return near.length > 0
    ? `use ${near.map((one) => `"${one}"`).join(' or ')}`
    : 'take an id of the column "stock" of parts.csv';
}
