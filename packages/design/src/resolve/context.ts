import { nearestWords } from '../nearest.ts';
import type { KeyPath } from '../path.ts';
import type { Report } from '../report.ts';
import type { ReadFile } from '../schema/design-file.ts';
import { findStock, type Stock, type StockKind } from '../stock/catalogue.ts';
import type { Process } from '../stock/process.ts';

/** What every part of resolving a file needs: the file, the stock with the file's own, the processes with its overrides. */
export interface Context {
  readonly file: ReadFile;
  readonly stock: Stock;
  readonly processes: Readonly<Record<Process['id'], Process>>;
  /** Texts of the drawings beside the design, by the names that the design gives them. */
  readonly files: ReadonlyMap<string, string>;
  readonly report: Report;
}

const NOUNS: Readonly<Record<StockKind, string>> = {
  sheet: 'a sheet',
  rod: 'a rod',
  tube: 'a tube',
  spacer: 'a spacer',
  screw: 'a screw',
  nut: 'a nut',
  washer: 'a washer',
  laminate: 'a laminate',
  coax: 'a coax',
  connector: 'a connector',
};

/** The item of stock that a field names; an unknown id is reported with the nearest known ones. */
export function lookUp<K extends StockKind>(
  context: Context,
  reference: { readonly kind: K; readonly id: string; readonly path: KeyPath },
): Stock[K][number] | undefined {
  const { kind, id, path } = reference;
  const item = findStock(kind, id, context.stock);
  if (item !== undefined) return item;
  const known: readonly { readonly id: string }[] = context.stock[kind];
  const near = nearestWords(
    id,
    known.map((each) => each.id),
    3,
  );
  return context.report.error({
    code: 'unknown-stock',
    path,
    value: `"${id}"`,
    allowed: `${NOUNS[kind]} in stock`,
    remedy:
      near.length > 0
        ? `use ${near.map((each) => `"${each}"`).join(' or ')}, or describe your own under [stock.${kind}.…]`
        : `choose one from the stock list, such as "${known[0]?.id ?? ''}", or describe your own under [stock.${kind}.…]`,
  });
}
