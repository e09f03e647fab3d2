import { deepFreeze } from '../freeze.ts';
import { coaxes, connectors } from './coax.ts';
import { laminates } from './laminates.ts';
import { nuts, washers } from './nuts.ts';
import { rods, tubes } from './rods.ts';
import { screws } from './screws.ts';
import { sheets } from './sheets.ts';
import { spacers } from './spacers.ts';
import type { AnyStock, Coax, Connector, Laminate, Nut, Rod, Screw, Sheet, Spacer, Tube, Washer } from './types.ts';

/** What can be bought, by kind. */
export interface Stock {
  readonly sheet: readonly Sheet[];
  readonly rod: readonly Rod[];
  readonly tube: readonly Tube[];
  readonly spacer: readonly Spacer[];
  readonly screw: readonly Screw[];
  readonly nut: readonly Nut[];
  readonly washer: readonly Washer[];
  readonly laminate: readonly Laminate[];
  readonly coax: readonly Coax[];
  readonly connector: readonly Connector[];
}
export type StockKind = keyof Stock;

/** The built-in catalogue. Every row says where its numbers come from and how sure they are. */
export const stock: Stock = deepFreeze({
  sheet: sheets,
  rod: rods,
  tube: tubes,
  spacer: spacers,
  screw: screws,
  nut: nuts,
  washer: washers,
  laminate: laminates,
  coax: coaxes,
  connector: connectors,
});

/** The item with this id, or undefined. `from` is the built-in catalogue unless another is given. */
export function findStock<K extends StockKind>(kind: K, id: string, from: Stock = stock): Stock[K][number] | undefined {
  const items: readonly AnyStock[] = from[kind];
  return items.find((item) => item.id === id) as Stock[K][number] | undefined;
}
