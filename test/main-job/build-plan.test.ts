import { bounds, type Outline, outlineArea } from '@sheetwave/geometry';
import type { PartSheet, PlanDocument } from '@sheetwave/plan';
import { describe, expect, test } from 'vitest';
import { exampleText, planOf, planOfPack } from '../plan-of-example.ts';

// A stranger has the plan and nothing else: every part must be used, every tool and file must be there, and every made part must
// come out of the printed numbers alone.

const EXAMPLES = ['brass-2x2-5g8', 'etched-2x2-5g5', 'laser-single-2g4', 'strip-column-5g2', 'slot-and-corners-5g8'];

/** Numbers are printed to 0.01 mm: an edge may be off by half of that. */
const ROUNDING_MM = 0.005;

describe.each(EXAMPLES)('the plan of %s', (name) => {
  const { plan, assembly } = planOf(exampleText(name));
  const ids = (items: readonly { readonly id: string }[]) => items.map(({ id }) => id);

  test('uses every part in some step, and no step takes what is not there', () => {
    const used = new Set(plan.steps.flatMap(({ parts }) => parts));
    expect([...used].sort()).toEqual(ids(assembly.parts).sort());
    const tools = new Set(plan.steps.flatMap((step) => step.tools));
    expect([...tools].sort()).toEqual(ids(plan.tools).sort());
  });

  test('has something to do and a way to know it is right in every step, each with a name of its own', () => {
    expect(new Set(ids(plan.steps)).size).toBe(plan.steps.length);
    for (const step of plan.steps) expect(step.lines.length, step.id).toBeGreaterThan(0);
    for (const step of plan.steps.filter(({ id }) => id !== 'order-boards')) expect(step.check, step.id).not.toBe('');
  });

  test('checks for shorts before the sweep, and drills before cutting out', () => {
    const order = ids(plan.steps);
    expect(order.indexOf('check-closed')).toBeLessThan(order.indexOf('sweep'));
    expect(order).toContain('check-closed');
    for (const step of plan.steps.filter(({ id }) => /^cut-(?!rods)/.test(id))) {
      const text = step.lines.join(' ');
      expect(text.indexOf('Drill while the sheet is whole')).toBeGreaterThanOrEqual(0);
      expect(text.indexOf('Drill while the sheet is whole')).toBeLessThan(text.indexOf('Only then cut out'));
    }
  });

  test('draws every part that is made, and says what each figure shows', () => {
    const made = assembly.parts.filter(({ form }) => form !== 'bought');
    expect(plan.drawings.map(({ part }) => part)).toEqual(ids(made));
    const figures = plan.sections.flatMap(({ blocks }) =>
      blocks.flatMap((block) =>
        block.kind === 'figure' ? [block.figure] : block.kind === 'step' ? [block.step.figure ?? []].flat() : [],
      ),
    );
    expect(new Set(ids(figures)).size).toBe(figures.length);
    for (const figure of figures) expect(figure.alt.length, figure.id).toBeGreaterThan(15);
  });

  test('gives dimensions from which outlines and holes can be made again', () => {
    for (const part of assembly.parts) {
      if (part.form !== 'plate' && part.form !== 'board') continue;
      const sheet = plan.drawings.find((one) => one.part === part.id);
      if (sheet === undefined) throw new Error(`no drawing of ${part.id}`);
      const holes = part.outline.holes.map(({ diameterMm }) => (Math.PI * diameterMm ** 2) / 4);
      // Half a hundredth along every edge, and along the rim of every hole.
      const rims = part.outline.holes.reduce((sum, { diameterMm }) => sum + Math.PI * diameterMm, 0);
      const slack = ROUNDING_MM * (2 * perimeterOf(part.outline) + rims);
      expect(Math.abs(areaOfSheet(sheet) - outlineArea(part.outline)), part.id).toBeLessThan(slack);
      expect(holeAreas(sheet).length).toBe(holes.length);
      expect(part.outline.holes.length === 0 ? [] : holePlaces(sheet)).toEqual(placesOf(part.outline));
    }
  });

  test('gives dimensions from which all copper can be made again', () => {
    for (const part of assembly.parts) {
      if (part.form !== 'board') continue;
      const sheet = plan.drawings.find((one) => one.part === part.id);
      if (sheet === undefined) throw new Error(`no drawing of ${part.id}`);
      for (const side of ['top', 'bottom'] as const) {
        const pieces = part.copper[side].map(({ contour }) => ({ outer: contour, cutouts: [], holes: [] }));
        const wanted = pieces.reduce((sum, piece) => sum + outlineArea(piece), 0);
        const slack = ROUNDING_MM * 2 * pieces.reduce((sum, piece) => sum + perimeterOf(piece), 0);
        expect(Math.abs(copperArea(sheet, side) - wanted), `${part.id} ${side}`).toBeLessThan(slack);
      }
    }
  });

  test('tells the reader what can hurt', () => {
    const notices = plan.sections.flatMap(({ blocks }) => blocks.filter(({ kind }) => kind === 'notice'));
    expect(JSON.stringify(notices)).toMatch(/transmit/);
    expect(JSON.stringify(notices)).toMatch(/licensed electrician/);
  });
});

// Studs of M3 male-female spacers are 6 mm long (stock table; trade practice, memory). Through a sheet of 0.5 mm one reaches 5.5 mm into
// the next spacer: half a millimetre more than a body of 5 mm is deep.
test('a stud that is too long is trimmed before the stack is put together, to what fits', () => {
  const text = exampleText('brass-2x2-5g8').split('spacer = "m3-mf-6-brass"');
  expect(text).toHaveLength(4);
  const { plan } = planOf(
    `${text[0]}spacer = "m3-mf-6-brass"${text[1]}spacer = "m3-mf-5-brass"${text[2]}spacer = "m3-mf-6-brass"${text[3]}`,
  );
  const at = plan.steps.findIndex(({ id }) => id === 'trim-1');
  const step = plan.steps[at];
  expect(at).toBeGreaterThan(-1);
  expect(at).toBeLessThan(plan.steps.findIndex(({ id }) => id === 'layer-1'));
  const [, off = '', left = ''] =
    /4 of them: cut ([\d.]+) mm off, which leaves ([\d.]+) mm/.exec(step?.lines[0] ?? '') ?? [];
  expect(Number(off) + Number(left)).toBeCloseTo(6, 9);
  expect(Number(left) - 0.5).toBeLessThanOrEqual(5);
  expect(step?.figure?.caption).toContain(`${left} mm stay, ${off} mm come off`);
});

type Row = readonly string[];

const number = (text: string | undefined): number => Number((text ?? '').replace('\u2212', '-'));
const tablesOf = (sheet: PartSheet, caption: RegExp) => sheet.tables.filter((table) => caption.test(table.caption));

/** The outside less the openings and the holes, from the printed tables. */
function areaOfSheet(sheet: PartSheet): number {
  const sized = tablesOf(sheet, /^Outline$/).flatMap(({ rows }) =>
    rows.map((row) => ({ name: row[0] ?? '', area: sizedArea(row) })),
  );
  const cornered = tablesOf(sheet, /^Corners of the (?!copper)/).map(({ caption, rows }) => ({
    name: /^Corners of the ([^,]+)/.exec(caption)?.[1] ?? '',
    area: Math.abs(corneredArea(rows)),
  }));
  const signed = [...sized, ...cornered].map(({ name, area }) => (name === 'outside' ? area : -area));
  return signed.reduce((sum, area) => sum + area, 0) - holeAreas(sheet).reduce((sum, area) => sum + area, 0);
}

/** All copper of one side, drawn or etched away, from the printed tables: every shape as often as it is there. */
function copperArea(sheet: PartSheet, side: string): number {
  const rows = tablesOf(sheet, /^Copper$/).flatMap((table) => table.rows);
  return rows
    .filter((row) => row[1] === side)
    .reduce((sum, [name = '', , what = '', count, width, height]) => {
      const corners = tablesOf(sheet, new RegExp(`^Corners of the copper ${name},`));
      const area = what.includes('corners')
        ? corners.reduce((all, { rows: own }) => all + Math.abs(corneredArea(own)), 0)
        : sizedArea(['', what.includes(', round') ? 'circle' : 'rectangle', width ?? '', height ?? '', '0']);
      return sum + number(count) * area;
    }, 0);
}

function sizedArea([, shape, width, height, radius]: Row): number {
  if (shape === 'circle') return (Math.PI * number(width) ** 2) / 4;
  return number(width) * number(height) - (4 - Math.PI) * number(radius) ** 2;
}

/** Shoelace over the corners, and for each arc the piece between it and its chord. */
function corneredArea(rows: readonly Row[]): number {
  return rows.reduce((sum, row, index) => {
    const next = rows[(index + 1) % rows.length] ?? row;
    const [x1, y1, x2, y2] = [number(row[1]), number(row[2]), number(next[1]), number(next[2])];
    return sum + (x1 * y2 - x2 * y1) / 2 + segmentArea(row, next);
  }, 0);
}

function segmentArea(row: Row, next: Row): number {
  if (row[3] === undefined || row[3] === 'straight') return 0;
  const [cx, cy, radius] = [number(row[5]), number(row[6]), number(row[4])];
  const [from, to] = [row, next].map((one) => Math.atan2(number(one[2]) - cy, number(one[1]) - cx)) as [number, number];
  const left = row[3] === 'arc to the left';
  const turn = left ? (to - from + 4 * Math.PI) % (2 * Math.PI) : (from - to + 4 * Math.PI) % (2 * Math.PI);
  const area = (radius ** 2 / 2) * (turn - Math.sin(turn));
  return left ? area : -area;
}

const holeRows = (sheet: PartSheet): readonly Row[] => tablesOf(sheet, /^Holes$/).flatMap(({ rows }) => rows);

function holeAreas(sheet: PartSheet): readonly number[] {
  return holeRows(sheet).flatMap((row) =>
    Array.from({ length: number(row[1]) }, () => (Math.PI * number(row[2]) ** 2) / 4),
  );
}

const sorted = (places: readonly string[]): readonly string[] => [...places].sort();
const holePlaces = (sheet: PartSheet): readonly string[] =>
  sorted(holeRows(sheet).map((row) => `${number(row[4]).toFixed(2)} ${number(row[5]).toFixed(2)}`));

/** By hand from the outline: distances from its left and lower edge, or from its centre when it is round. */
function placesOf({ outer, holes }: Outline): readonly string[] {
  const box = bounds(outer);
  const datum = outer.kind === 'circle' ? outer.centre : { x: box.minX, y: box.minY };
  return sorted(
    holes
      .map(({ centre }) => `${(centre.x - datum.x).toFixed(2)} ${(centre.y - datum.y).toFixed(2)}`)
      .map((place) => place.replaceAll('-0.00', '0.00')),
  );
}

function perimeterOf({ outer, cutouts }: Outline): number {
  return [outer, ...cutouts].reduce((sum, contour) => {
    if (contour.kind === 'circle') return sum + 2 * Math.PI * contour.radiusMm;
    const points = [contour.start, ...contour.segments.map(({ to }) => to)];
    const chords = points
      .slice(1)
      .map((to, index) => Math.hypot(to.x - (points[index]?.x ?? 0), to.y - (points[index]?.y ?? 0)));
    return sum + 1.6 * chords.reduce((total, chord) => total + chord, 0);
  }, 0);
}

test('a plan of 256 elements is no longer than one of 16, but for its tables', () => {
  const array = (count: number): PlanDocument => {
    const text = exampleText('brass-2x2-5g8')
      .replace('rows = 2', `rows = ${count}`)
      .replace('columns = 2', `columns = ${count}`)
      .replace(/^harness\.level\.1\.section.*$/m, '');
    const levels = Array.from(
      { length: 2 * Math.log2(count) },
      (_, level) => `[[harness.level]]\njoins = "${level % 2 === 0 ? 'rows' : 'columns'}"`,
    );
    const [before = '', after = ''] = text.split(/\[\[harness\.level\]\][\s\S]*(?=\[coax\])/);
    return planOf(`${before}${levels.join('\n')}\n${after}`).plan;
  };
  const [small, large] = [array(4), array(16)];
  const rows = ({ sections }: PlanDocument) =>
    sections.flatMap(({ blocks }) => blocks.flatMap((block) => (block.kind === 'table' ? block.rows : []))).length;
  expect(large.steps.length).toBe(small.steps.length);
  expect(rows(large) - rows(small)).toBeLessThan(60);
});

test('a pack holds every file that its plan names, and the plan itself', async () => {
  const { plan, pack } = await planOfPack(exampleText('strip-column-5g2'));
  const named = plan.steps.flatMap(({ files }) => files);
  expect(named.length).toBeGreaterThan(10);
  for (const path of named) expect(pack.has(path), path).toBe(true);
  expect([...pack.keys()]).toEqual(expect.arrayContaining(['build-plan.pdf', 'report.html']));
}, 240_000);
