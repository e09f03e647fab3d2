import type { Harness, HarnessLevel, Lattice, RodLevel, StripLevel } from '../design.ts';
import type { ReadFile } from '../schema/design-file.ts';
import { type Context, lookUp } from './context.ts';
import { fillJoins, halvings } from './levels.ts';

type FileHarness = NonNullable<ReadFile['harness']>;
type RodFile = Extract<FileHarness, { kind: 'rod' }>;
type StripFile = Extract<FileHarness, { kind: 'strip' }>;
type MicrostripFile = Extract<FileHarness, { kind: 'microstrip' }>;
type Joining = RodFile | StripFile | MicrostripFile;

/** Bends of rod are at least this many diameters inside unless the file says otherwise; shop rule. */
const BEND_RADIUS_PER_DIAMETER = 1.5;

function wholeTree(context: Context, lattice: Lattice): boolean {
  const { rows, columns } = halvings(lattice);
  if (Number.isInteger(rows) && Number.isInteger(columns)) return true;
  context.report.error({
    code: 'not-a-power-of-two',
    path: ['lattice'],
    value: `${lattice.rows} x ${lattice.columns}`,
    allowed: 'cannot be joined by a tree',
    remedy: 'use 1, 2, 4, 8 ... rows and columns',
  });
  return false;
}

function starFits(context: Context, lattice: Lattice): boolean {
  const count = lattice.rows * lattice.columns;
  if (count === 2 || (lattice.rows === 2 && lattice.columns === 2)) return true;
  context.report.error({
    code: 'star-too-large',
    path: ['harness', 'topology'],
    value: '"star"',
    allowed: 'joins 2 elements or 2 x 2',
    remedy: 'write topology = "tree"',
  });
  return false;
}

function levelCount(context: Context, harness: Joining, lattice: Lattice): number | undefined {
  const star = harness.topology === 'star';
  if (!(star ? starFits(context, lattice) : wholeTree(context, lattice))) return undefined;
  const { rows, columns } = halvings(lattice);
  const count = star ? 1 : rows + columns;
  const written = harness.level?.length ?? count;
  if (written === count) return count;
  return context.report.error({
    code: 'wrong-level-count',
    path: ['harness', 'level'],
    value: String(written),
    allowed: `is not the number of levels of this harness, which is ${count}`,
    remedy: `write ${count} [[harness.level]] tables, or none to take the defaults`,
  });
}

/** What each level joins and its stems, without its conductor. */
function plainLevels(context: Context, harness: Joining, lattice: Lattice): readonly HarnessLevel[] | undefined {
  const count = levelCount(context, harness, lattice);
  if (count === undefined) return undefined;
  const written = Array.from({ length: count }, (_, index) => harness.level?.[index]);
  const stemOf = (index: number) => written[index]?.stem ?? harness.stem ?? 0;
  if (harness.topology === 'star') {
    return [{ joins: written[0]?.joins ?? (lattice.columns > 1 ? 'columns' : 'rows'), stemMm: stemOf(0) }];
  }
  const joins = fillJoins(
    written.map((level) => level?.joins),
    lattice,
  );
  if (joins !== undefined) return joins.map((axis, index) => ({ joins: axis, stemMm: stemOf(index) }));
  const { rows, columns } = halvings(lattice);
  return context.report.error({
    code: 'wrong-joins',
    path: ['harness', 'level'],
    allowed: `must join rows ${rows} times and columns ${columns} times`,
    remedy: 'correct joins, or leave it out to take the default',
  });
}

function rodOf(context: Context, harness: RodFile, index: number): RodLevel['rod'] | undefined {
  const own = harness.level?.[index]?.rod;
  const id = own ?? harness.rod;
  if (id === undefined) {
    const path = ['harness', 'rod'];
    return context.report.error({
      code: 'missing-field',
      path,
      allowed: 'needed for a rod harness',
      remedy: 'give rod = "brass-rod-2"',
    });
  }
  return lookUp(context, {
    kind: 'rod',
    id,
    path: own === undefined ? ['harness', 'rod'] : ['harness', 'level', index, 'rod'],
  });
}

function rodLevel(context: Context, harness: RodFile, index: number, level: HarnessLevel): RodLevel | undefined {
  const rod = rodOf(context, harness, index);
  const written = harness.level?.[index]?.section;
  if (written === undefined) return rod && { ...level, rod, section: undefined };
  const path = ['harness', 'level', index, 'section', 'tube'];
  const tube = lookUp(context, { kind: 'tube', id: written.tube, path });
  if (rod === undefined || tube === undefined) return undefined;
  if (tube.boreMm < rod.diameterMm) {
    return context.report.error({
      code: 'tube-too-narrow',
      path,
      value: `"${tube.id}"`,
      allowed: `has a bore of ${tube.boreMm} mm and cannot slide over a ${rod.diameterMm} mm rod`,
      remedy: `use a tube with a bore of at least ${rod.diameterMm} mm`,
    });
  }
  return { ...level, rod, section: { at: written.at, lengthMm: written.length, tube } };
}

function stripLevel(
  context: Context,
  harness: StripFile | MicrostripFile,
  index: number,
  level: HarnessLevel,
): StripLevel | undefined {
  const written = harness.level?.[index];
  const widthMm = written?.width ?? harness.width;
  if (widthMm === undefined) {
    const path = ['harness', 'width'];
    return context.report.error({
      code: 'missing-field',
      path,
      allowed: 'needed for this harness',
      remedy: 'give width = "4 mm", or a width in each level',
    });
  }
  const section = written?.section;
  return {
    ...level,
    widthMm,
    section: section && { at: section.at, lengthMm: section.length, widthMm: section.width },
  };
}

function allOrNone<T>(items: readonly (T | undefined)[]): readonly T[] | undefined {
  const whole = items.filter((item): item is T => item !== undefined);
  return whole.length === items.length ? whole : undefined;
}

function rodHarness(context: Context, file: RodFile, plain: readonly HarnessLevel[]): Harness | undefined {
  const levels = allOrNone(plain.map((level, index) => rodLevel(context, file, index, level)));
  if (levels === undefined) return undefined;
  const thickest = Math.max(...levels.map((level) => level.rod.diameterMm));
  return {
    kind: 'rod',
    topology: file.topology ?? 'tree',
    heightMm: file.height,
    bendRadiusMm: file.bend_radius ?? BEND_RADIUS_PER_DIAMETER * thickest,
    levels,
  };
}

function stripHarness(context: Context, file: StripFile, plain: readonly HarnessLevel[]): Harness | undefined {
  const sheet = lookUp(context, { kind: 'sheet', id: file.sheet, path: ['harness', 'sheet'] });
  const levels = allOrNone(plain.map((level, index) => stripLevel(context, file, index, level)));
  if (sheet === undefined || levels === undefined) return undefined;
  const process = context.processes[file.process ?? 'hand'];
  return {
    kind: 'strip',
    topology: file.topology ?? 'tree',
    heightMm: file.height,
    sheet,
    process: { ...process, insideCorners: file.relief === 'dog-bone' ? 'dog-bone' : process.insideCorners },
    levels,
  };
}

/** One element: the line from the coax to the patch. */
function leadHarness(context: Context, file: MicrostripFile): Harness | undefined {
  const { width, length } = file;
  if (width !== undefined && length !== undefined) {
    return { kind: 'microstrip', topology: 'tree', levels: [], lead: { widthMm: width, lengthMm: length } };
  }
  const key = width === undefined ? 'width' : 'length';
  return context.report.error({
    code: 'missing-field',
    path: ['harness', key],
    allowed: 'needed for the line from the coax to the patch',
    remedy: `give ${key} = "${key === 'width' ? '2.4' : '20'} mm"`,
  });
}

function microstripHarness(
  context: Context,
  file: MicrostripFile,
  plain: readonly HarnessLevel[],
): Harness | undefined {
  if (plain.length === 0) return leadHarness(context, file);
  if (file.length !== undefined) {
    return context.report.error({
      code: 'too-many-fields',
      path: ['harness', 'length'],
      allowed: 'only for one element: here the lattice and the stems give the lengths',
      remedy: 'leave it out',
    });
  }
  const levels = allOrNone(plain.map((level, index) => stripLevel(context, file, index, level)));
  return levels && { kind: 'microstrip', topology: 'tree', levels, lead: undefined };
}

function joinNothing(context: Context, kind: 'rod' | 'strip'): undefined {
  return context.report.error({
    code: 'nothing-to-join',
    path: ['harness', 'kind'],
    value: `"${kind}"`,
    allowed: 'joins elements, and there is one',
    remedy: 'write kind = "none", or give [lattice] more rows or columns',
  });
}

/** The harness, or undefined after reporting what is wrong. */
export function resolveHarness(context: Context, lattice: Lattice): Harness | undefined {
  const file = context.file.harness ?? { kind: 'none' };
  const single = lattice.rows * lattice.columns === 1;
  if (file.kind === 'none') {
    if (single) return file;
    return context.report.error({
      code: 'missing-field',
      path: ['harness'],
      allowed: `needed to join ${lattice.rows * lattice.columns} elements`,
      remedy: 'add [harness] with kind = "rod", "strip" or "microstrip"',
    });
  }
  if (single && file.kind !== 'microstrip') return joinNothing(context, file.kind);
  const plain = plainLevels(context, file, lattice);
  if (plain === undefined) return undefined;
  if (file.kind === 'rod') return rodHarness(context, file, plain);
  return file.kind === 'strip' ? stripHarness(context, file, plain) : microstripHarness(context, file, plain);
}
