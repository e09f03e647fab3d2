import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { DxfDrawing, DxfEntity } from './drawing.ts';
import { LAYERS, type LayerName } from './layers.ts';
import { writeDxf } from './writer.ts';

const square: DxfEntity = {
  kind: 'loop',
  layer: 'CUT_OUTER',
  vertices: [
    { x: 0, y: 0, bulge: 0 },
    { x: 10, y: 0, bulge: 0 },
    { x: 10, y: 10, bulge: 0.25 },
    { x: 0, y: 10, bulge: 0 },
  ],
};
const hole: DxfEntity = { kind: 'circle', layer: 'DRILL', centre: { x: 5, y: 5 }, radiusMm: 1.6 };

function drawing(entities: readonly DxfEntity[]): DxfDrawing {
  return { entities, extents: { minX: 0, minY: 0, maxX: 10, maxY: 10 } };
}
const written = (...entities: readonly DxfEntity[]): string => new TextDecoder().decode(writeDxf(drawing(entities)));

/** Pairs of group code and value. */
function groups(text: string): readonly (readonly [number, string])[] {
  const lines = text.split('\n');
  expect(lines.pop()).toBe('');
  return lines.flatMap((line, index) => (index % 2 === 0 ? [[Number(line), lines[index + 1] ?? ''] as const] : []));
}

test('the same drawing gives the same bytes, whatever was written before', () => {
  const first = written(square, hole);
  written(hole);
  expect(written(square, hole)).toBe(first);
});

test('the unit is stated in both places that readers look at', () => {
  // Source: $INSUNITS 4 is millimetres (confirmed); $MEASUREMENT 1 is metric (DXF reference, memory).
  const text = written(square);
  expect(text).toContain('$INSUNITS\n70\n4\n');
  expect(text).toContain('$MEASUREMENT\n70\n1\n');
});

test('handles are given once each, below the next one to give', () => {
  const all = groups(written(square, hole));
  const at = all.findIndex(([code, value]) => code === 9 && value === '$HANDSEED');
  const next = Number.parseInt(all[at + 1]?.[1] ?? '', 16);
  const handles = all.filter(([code], index) => code === 5 && index !== at + 1).map(([, value]) => value);
  expect(new Set(handles).size).toBe(handles.length);
  for (const handle of handles) expect(Number.parseInt(handle, 16)).toBeLessThan(next);
});

test('inside contours come before the outside whatever the order of the drawing', () => {
  const kinds = groups(written(square, hole)).filter(([code, value]) => code === 0 && /LWPOLYLINE|CIRCLE/.test(value));
  expect(kinds.map(([, value]) => value)).toEqual(['CIRCLE', 'LWPOLYLINE']);
});

test('a closed polyline carries its bulge on the corner where the arc starts', () => {
  const all = groups(written(square));
  const start = all.findIndex(([, value]) => value === 'LWPOLYLINE');
  const entity = all.slice(start, start + 26);
  expect(entity.filter(([code]) => code === 70)).toEqual([[70, '1']]);
  expect(entity.filter(([code]) => code === 42).map(([, value]) => value)).toEqual(['0.0', '0.0', '0.25', '0.0']);
});

test('numbers are plain decimals of at most nine places', () => {
  const place = fc.double({ min: -2000, max: 2000, noNaN: true });
  fc.assert(
    fc.property(place, place, fc.double({ min: 0.001, max: 500, noNaN: true }), (x, y, radiusMm) => {
      const reals = groups(written({ ...hole, centre: { x, y }, radiusMm })).filter(
        ([code]) => code >= 10 && code < 60,
      );
      for (const [, value] of reals) expect(value).toMatch(/^-?\d+\.\d{1,9}$/);
    }),
    { seed: 20260517, examples: [[1e-7, -1e-9, 0.001]] },
  );
});

test.each<[string, DxfEntity, RegExp]>([
  ['a number that is none', { ...hole, centre: { x: Number.NaN, y: 0 } }, /x is NaN/],
  ['a radius of nothing', { ...hole, radiusMm: 1e-9 }, /radius/],
  ['a place beyond any sheet', { ...hole, centre: { x: 1e6, y: 0 } }, /1000000/],
  ['a layer nobody declared', { ...hole, layer: 'CUT_OUTSIDE' as LayerName }, /no layer CUT_OUTSIDE/],
  ['an open line to cut', { kind: 'line', layer: 'CUT_OUTER', from: { x: 0, y: 0 }, to: { x: 1, y: 0 } }, /belong/],
  [
    'a line of no length',
    { kind: 'line', layer: 'NOTE', from: { x: 1, y: 1 }, to: { x: 1, y: 1 + 1e-9 } },
    /no length/,
  ],
  ['text to engrave', text('ENGRAVE', 'feed'), /belong/],
  ['a line break in text', text('NOTE', 'one\n0\nEOF'), /control character/],
  ['empty text', text('NOTE', ' '), /text of 1/],
  ['a segment of no length', { ...square, vertices: [...square.vertices, { x: 0, y: 0, bulge: 0 }] }, /no length/],
  ['a polyline of two straight sides', { ...square, vertices: square.vertices.slice(0, 2) }, /2 corners/],
])('refuses %s', (_, entity, message) => {
  expect(() => written(entity)).toThrow(message);
});

test('refuses the same curve twice, from whichever corner it starts', () => {
  const again: DxfEntity = { ...square, vertices: [...square.vertices.slice(2), ...square.vertices.slice(0, 2)] };
  expect(() => written(square, again)).toThrow(/twice on CUT_OUTER/);
  expect(() => written(hole, { ...hole, layer: 'CUT_INNER' })).not.toThrow();
});

test('every layer is declared once, none on layer 0', () => {
  const all = groups(written(square, hole));
  const declared = all
    .filter(([code], index) => code === 2 && all[index - 5]?.[1] === 'LAYER')
    .map(([, value]) => value);
  expect(declared).toEqual(['0', ...LAYERS.map(({ name }) => name)]);
  const drawn = all.filter(([code]) => code === 8).map(([, value]) => value);
  expect(drawn).toEqual(['DRILL', 'CUT_OUTER']);
});

function text(layer: LayerName, words: string): DxfEntity {
  return { kind: 'text', layer, at: { x: 0, y: 0 }, align: 'left', heightMm: 3, text: words };
}
