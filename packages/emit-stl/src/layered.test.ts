import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inscription, lettering } from './engraving.ts';
import { bore, box, joined, movedFlat, polygon, without } from './flat-shapes.ts';
import { layered } from './layered.ts';
import { meshFaults, signedVolume } from './mesh.ts';

const at = (x: number, y: number) => ({ x, y });
const block = box(at(0, 0), at(30, 20));

describe('a solid of levels', () => {
  test('is closed where a fence stands flush with the plate, and has the volume of its boxes', () => {
    const fence = joined([box(at(0, 0), at(5, 20)), box(at(0, 0), at(30, 3))]);
    const facets = layered([
      { flat: block, topMm: 4 },
      { flat: fence, topMm: 9 },
    ]);
    expect(meshFaults(facets)).toEqual([]);
    // 30·20·4 and (5·20 + 25·3)·5 (computed).
    expect(signedVolume(facets)).toBeCloseTo(2400 + 875, 6);
  });

  test('narrows toward the bed by a frustum, also around its bores', () => {
    const facets = layered([{ flat: block, topMm: 4 }], 0.3);
    expect(meshFaults(facets)).toEqual([]);
    // Prismatoid h/6 · (A + 4M + a), M the section half way (computed).
    const bevel = (0.3 / 6) * (600 + 4 * 29.7 * 19.7 + 29.4 * 19.4);
    expect(signedVolume(facets)).toBeCloseTo(bevel + 600 * 3.7, 6);
    const bored = layered([{ flat: without(block, [bore(at(10, 10), 4)]), topMm: 4 }], 0.3);
    expect(meshFaults(bored)).toEqual([]);
    const radii = bored.flat().filter(([x, y, z]) => z === 0 && Math.hypot(x - 10, y - 10) < 4);
    // Flats of the bore lie on its circle: its corners on 2 / cos(π/64), and 0.3 mm farther along the corner's bisector.
    const corner = (2 + 0.3) / Math.cos(Math.PI / 64);
    for (const [x, y] of radii) expect(Math.abs(Math.hypot(x - 10, y - 10) - corner)).toBeLessThan(2e-3);
    expect(radii.length).toBeGreaterThan(63);
  });

  test('takes less bevel where a rib is too thin for the whole of it', () => {
    const rib = box(at(0, 0), at(20, 0.5));
    const facets = layered([{ flat: rib, topMm: 3 }], 0.3);
    expect(meshFaults(facets)).toEqual([]);
    const widths = facets
      .flat()
      .filter(([, , z]) => z === 0)
      .map(([, y]) => y);
    // 0.3 mm from both sides would turn it over; half of that leaves 0.2 mm (computed).
    expect(Math.min(...widths)).toBeCloseTo(0.15, 6);
  });

  test('has pockets on the bed as well', () => {
    const pocket = box(at(5, 5), at(9, 8));
    const facets = layered([
      { flat: without(block, [pocket]), topMm: 0.5 },
      { flat: block, topMm: 3 },
    ]);
    expect(meshFaults(facets)).toEqual([]);
    expect(signedVolume(facets)).toBeCloseTo(600 * 3 - 12 * 0.5, 6);
  });

  test('throws when a level hangs over on one side and steps back on the other', () => {
    const aside = box(at(10, 0), at(40, 20));
    expect(() =>
      layered([
        { flat: block, topMm: 1 },
        { flat: aside, topMm: 2 },
      ]),
    ).toThrow(/neither holds nor lies in/);
  });

  test('is closed for grooves and posts at any angle', () => {
    const bars = fc.array(
      fc.record({
        x: fc.double({ min: 2, max: 28, noNaN: true }),
        y: fc.double({ min: 2, max: 18, noNaN: true }),
        angle: fc.double({ min: 0, max: 3.14, noNaN: true }),
        length: fc.double({ min: 1, max: 40, noNaN: true }),
      }),
      { minLength: 1, maxLength: 4 },
    );
    const bar = ({ x, y, angle, length }: { x: number; y: number; angle: number; length: number }) => {
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      const corner = (i: number, j: number) => at(x + (i * length * c) / 2 - j * s, y + (i * length * s) / 2 + j * c);
      return polygon([corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)]);
    };
    fc.assert(
      fc.property(bars, (some) => {
        const cut = without(block, some.map(bar));
        const facets = layered([
          { flat: block, topMm: 2 },
          { flat: cut, topMm: 4 },
        ]);
        expect(meshFaults(facets)).toEqual([]);
      }),
      { seed: 45, numRuns: 80 },
    );
  });
});

describe('letters', () => {
  const print = { process: 'filament' } as Parameters<typeof lettering>[0];
  const words = ['ABCDEFGH', 'IJKLMNOP', 'QRSTUVWX', 'YZ012345', '6789.-'];

  test.each(['filament', 'resin'] as const)(
    'every one is a closed pocket, printed from %s, on the bed and on top',
    (process) => {
      for (const where of ['top', 'bed'] as const) {
        const letters = lettering({ ...print, process }, where);
        for (const heightMm of letters.heightsMm) {
          const text = inscription(words, letters, heightMm);
          const plate = box(at(-2, -2), at(text.widthMm + 2, text.heightMm + 2));
          const carved = without(plate, [movedFlat(text.flat, at(0, 0))]);
          const levels = [
            { flat: where === 'bed' ? carved : plate, topMm: 0.5 },
            { flat: where === 'bed' ? plate : carved, topMm: 1 },
          ];
          expect(meshFaults(layered(levels)), `${where} ${heightMm}`).toEqual([]);
        }
      }
    },
  );

  test('are as high as they say, and no line is thinner than its pen', () => {
    const letters = lettering(print);
    const text = inscription(['I'], letters, 5);
    // Square pen ends stand half a pen past the strokes.
    expect(text.heightMm).toBeCloseTo(5 + letters.penMm, 3);
    expect(text.widthMm).toBeCloseTo((2 / 6) * 5 + letters.penMm, 3);
  });
});
