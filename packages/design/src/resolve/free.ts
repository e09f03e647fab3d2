import type { FreeDimension, StockChoice } from '../design.ts';
import { nearestWords } from '../nearest.ts';
import { type KeyPath, pathText } from '../path.ts';
import { formatLength } from '../quantity.ts';
import type { Rod, Spacer, Tube } from '../stock/types.ts';
import { type Context, lookUp } from './context.ts';
import { layerName } from './layers.ts';

interface LengthRange {
  readonly from: number;
  readonly to: number;
  readonly step?: number | undefined;
}
type Spec = LengthRange | readonly string[];
type Kind = 'spacer' | 'rod' | 'tube';

/** A field of `[free]`: where it stands there, and what it says. */
interface Entry {
  readonly own: KeyPath;
  readonly spec: Spec;
}

function isSpec(value: object): value is Spec {
  return Array.isArray(value) || ('from' in value && 'to' in value);
}

function entriesOf(table: object, own: KeyPath): readonly Entry[] {
  return Object.entries(table).flatMap(([key, value]: [string, unknown]): readonly Entry[] => {
    if (typeof value !== 'object' || value === null) return [];
    return isSpec(value) ? [{ own: [...own, key], spec: value }] : entriesOf(value, [...own, key]);
  });
}

/** `layer.driven.length` → `layer[0].length`, `harness.level.1.stem` → `harness.level[0].stem`; undefined after reporting. */
function designPath(context: Context, own: KeyPath): KeyPath | undefined {
  const [, section, second, third, ...rest] = own;
  if (section === 'layer') {
    const names = context.file.layer.map(layerName);
    const index = names.indexOf(String(second));
    if (index >= 0) return ['layer', index, ...own.slice(3)];
    const [near] = nearestWords(String(second), names, 1);
    return context.report.error({
      code: 'unknown-layer',
      path: own.slice(0, 3),
      allowed: `is not the name of a layer; the layers are ${names.join(', ')}`,
      remedy: near === undefined ? 'write the name of a layer' : `did you mean ${near}?`,
    });
  }
  if (section === 'harness' && second === 'level') return ['harness', 'level', Number(third) - 1, ...rest];
  return own.slice(1);
}

/** What the file has there: a length in mm, an id of stock, or nothing. A printed spacer's height is its value. */
function writtenAt(
  context: Context,
  path: KeyPath,
): { readonly path: KeyPath; readonly value: number | string } | undefined {
  let value: unknown = context.file;
  for (const key of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Readonly<Record<string | number, unknown>>)[key];
  }
  if (typeof value === 'number' || typeof value === 'string') return { path, value };
  if (typeof value === 'object' && value !== null && 'printed' in value && typeof value.printed === 'number') {
    return { path: [...path, 'printed'], value: value.printed };
  }
  return undefined;
}

/** True when the range has room and its step fits; false after reporting. */
function hasRoom(context: Context, own: KeyPath, { from, to, step }: LengthRange): boolean {
  if (from >= to) {
    context.report.error({
      code: 'empty-range',
      path: [...own, 'to'],
      value: formatLength(to),
      allowed: `is not above from, ${formatLength(from)}, so that there is nothing to choose`,
      remedy: 'swap them, or correct one',
    });
    return false;
  }
  if (step === undefined || step <= to - from) return true;
  context.report.error({
    code: 'step-too-large',
    path: [...own, 'step'],
    value: formatLength(step),
    allowed: `is more than the whole range, ${formatLength(to - from)}`,
    remedy: 'give a smaller step',
  });
  return false;
}

function warnOutside(context: Context, own: KeyPath, value: string, range: string): void {
  context.report.warning({
    code: 'start-outside',
    path: own,
    value,
    allowed: `is what the design has now, outside ${range}`,
    remedy: 'widen the range, or let sizing begin at its nearest end',
  });
}

function freeLength(context: Context, entry: Entry, path: KeyPath, valueMm: number): FreeDimension | undefined {
  const { own, spec } = entry;
  if (!('from' in spec)) {
    return context.report.error({
      code: 'not-stock',
      path: own,
      allowed: 'is a list, and the design has a printed spacer there',
      remedy: 'give a range such as { from = "5 mm", to = "8 mm" }',
    });
  }
  if (!hasRoom(context, own, spec)) return undefined;
  const { from, to, step } = spec;
  if (valueMm < from || valueMm > to) {
    warnOutside(context, own, formatLength(valueMm), `${formatLength(from)} to ${formatLength(to)}`);
  }
  return { kind: 'length', path: pathText(path), fromMm: from, toMm: to, stepMm: step, valueMm };
}

type Item = Spacer | Rod | Tube;

const sizeOf = (item: Item): number =>
  item.kind === 'spacer' ? item.bodyMm : item.kind === 'rod' ? item.diameterMm : item.outerMm;

/** A looser tube than this has to be packed with solder. */
const MOST_PLAY_MM = 0.3;

/** Whether an item of stock differs from the present one in nothing but its size. */
function sameMake(item: Item, now: Item): boolean {
  if (item.kind === 'tube' && now.kind === 'tube') {
    return item.boreMm >= now.boreMm && item.boreMm <= now.boreMm + MOST_PLAY_MM;
  }
  if (item.material.name !== now.material.name) return false;
  if (item.kind !== 'spacer' || now.kind !== 'spacer') return item.kind === now.kind;
  return item.thread === now.thread && item.section === now.section && item.ends.join() === now.ends.join();
}

function choicesOf(context: Context, { own, spec }: Entry, kind: Kind, now: Item): readonly Item[] | undefined {
  if ('from' in spec) {
    if (!hasRoom(context, own, spec)) return undefined;
    if (spec.step !== undefined) {
      return context.report.error({
        code: 'too-many-fields',
        path: [...own, 'step'],
        allowed: 'does not go with stock, which has its own sizes',
        remedy: 'leave it out',
      });
    }
    const all: readonly Item[] = context.stock[kind];
    return all.filter((item) => sameMake(item, now) && sizeOf(item) >= spec.from && sizeOf(item) <= spec.to);
  }
  const items = spec.map((id, index) => lookUp(context, { kind, id, path: [...own, index] }));
  const known = items.filter((item) => item !== undefined);
  return known.length === items.length ? known : undefined;
}

function freeStock(
  context: Context,
  entry: Entry,
  kind: Kind,
  written: { path: KeyPath; value: string },
): FreeDimension | undefined {
  const now = lookUp(context, { kind, id: written.value, path: written.path });
  const items = now && choicesOf(context, entry, kind, now);
  if (now === undefined || items === undefined) return undefined;
  const choices = new Map(items.map((item): [string, StockChoice] => [item.id, { id: item.id, sizeMm: sizeOf(item) }]));
  if (choices.size < 2) {
    return context.report.error({
      code: 'empty-range',
      path: entry.own,
      allowed: `leaves ${choices.size === 0 ? 'nothing' : 'one item'} of stock to choose from`,
      remedy: `widen it, or list the ids, such as ["${now.id}", …]`,
    });
  }
  if (!choices.has(now.id)) warnOutside(context, entry.own, `"${now.id}"`, 'the choice');
  const bySize = [...choices.values()].sort((a, b) => a.sizeMm - b.sizeMm || (a.id < b.id ? -1 : 1));
  return { kind: 'stock', path: pathText(written.path), stock: kind, choices: bySize, value: now.id };
}

function freeDimension(context: Context, entry: Entry): FreeDimension | undefined {
  const path = designPath(context, entry.own);
  if (path === undefined) return undefined;
  const written = writtenAt(context, path);
  if (written === undefined) {
    return context.report.error({
      code: 'not-written',
      path: entry.own,
      allowed: `frees ${pathText(path)}, which the design does not give`,
      remedy: 'write it there with its start value, or leave it out here',
    });
  }
  if (typeof written.value === 'number') return freeLength(context, entry, written.path, written.value);
  const key = path.at(-1);
  if (key !== 'spacer' && key !== 'rod' && key !== 'tube') throw new Error(`${pathText(path)} is no item of stock`);
  return freeStock(context, entry, key, { path: written.path, value: written.value });
}

/** What sizing may change, in the order of the file; entries that are wrong are reported and left out. */
export function resolveFree(context: Context): readonly FreeDimension[] {
  return entriesOf(context.file.free ?? {}, ['free'])
    .map((entry) => freeDimension(context, entry))
    .filter((one) => one !== undefined);
}
