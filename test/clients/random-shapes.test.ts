import { defineDesign, renderFinding } from '@sheetwave/design';
import { emitDxf } from '@sheetwave/emit-dxf';
import { emitGerber } from '@sheetwave/emit-gerber';
import { type Assembly, assemble, validate } from '@sheetwave/geometry';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { describeWithClients } from './client.ts';
import { measureDxf } from './dxf-clients.ts';
import { readGerber } from './gerber-grammar.ts';

// Shapes of any size that fits: each validates, and cut and etched files hold the area that follows from its sizes.

const SEED = 20260517;
type Layer = Parameters<typeof defineDesign>[0]['layer'][number];
interface Shape {
  readonly fields: Record<string, unknown>;
  /** Metal by its sizes, mm². */
  readonly area: number;
  readonly feed: number;
}

const mm = (value: number): string => `${value.toFixed(6)} mm`;
const round = (value: number): number => Number(value.toFixed(6));
const size = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map(round);
const loss = (radius: number): number => (1 - Math.PI / 4) * radius ** 2;

const rectangle = fc
  .record({
    length: size(24, 60),
    width: size(24, 60),
    corner: size(0.1, 2),
    kind: fc.constantFrom('round', 'all', 'opposite'),
  })
  .chain(({ length, width, corner, kind }) =>
    fc
      .record({
        slot: fc.constantFrom('u', 'e', 'none'),
        part: size(0.2, 0.4),
        slotWidth: size(0.6, 1.5),
        end: size(0.2, 0.3),
      })
      .map(({ slot, part, slotWidth, end }): Shape => {
        const corners =
          kind === 'round'
            ? { corner_radius: mm(corner) }
            : { cut_corners: { corners: kind, size: mm(corner), hand: 'right-hand' } };
        const cut = kind === 'round' ? 4 * loss(corner) : kind === 'all' ? 2 * corner ** 2 : corner ** 2;
        const [deep, apart] = [round(part * length), round(0.3 * width + 3)];
        const common = { kind: slot, width: mm(slotWidth), end_radius: mm(end), edge: 'far' };
        const made =
          slot === 'u'
            ? {
                fields: { slot: { ...common, arm: mm(deep), base: mm(apart), offset: mm(1) } },
                area: apart * slotWidth + 2 * (deep - slotWidth) * slotWidth - 6 * loss(end),
              }
            : slot === 'e'
              ? {
                  fields: { slot: { ...common, length: mm(deep), spacing: mm(apart) } },
                  area: 2 * (deep * slotWidth - 2 * loss(end)),
                }
              : { fields: {}, area: 0 };
        return {
          fields: { shape: 'rectangle', length: mm(length), width: mm(width), ...corners, ...made.fields },
          area: length * width - cut - made.area,
          feed: 2,
        };
      }),
  );
const triangle = size(45, 90).map(
  (side): Shape => ({ fields: { shape: 'triangle', side: mm(side) }, area: (Math.sqrt(3) / 4) * side ** 2, feed: 2 }),
);
const ring = fc.tuple(size(24, 60), size(0.2, 0.6)).map(([outer, part]): Shape => {
  const inner = round(outer * part);
  return {
    fields: { shape: 'ring', outer_diameter: mm(outer), inner_diameter: mm(inner) },
    area: (Math.PI / 4) * (outer ** 2 - inner ** 2),
    feed: 2,
  };
});

function assembled(shape: Shape, carrier: Record<string, unknown>): Assembly {
  const { design, findings } = defineDesign({
    format: 1,
    name: 'Any shape',
    band: { low: '2.4 GHz', high: '2.5 GHz' },
    reflector: { sheet: 'brass-1.0' },
    layer: [{ ...shape.fields, ...carrier, spacer: 'm3-mf-5-brass' } as unknown as Layer],
    feed: { from_edge: mm(shape.feed) },
    coax: { stock: 'semi-rigid-141' },
    process: { etch: { undercut: '0 mm' } },
  });
  const made = design && assemble(design);
  const all = [...findings, ...(made?.findings ?? []), ...(made?.assembly ? validate(made.assembly) : [])];
  const errors = all.filter(({ severity }) => severity === 'error').map((finding) => renderFinding(finding));
  expect(errors).toEqual([]);
  if (made?.assembly === undefined) throw new Error('no assembly');
  return made.assembly;
}

test('etched: dark less clear is the area of the sizes', () => {
  fc.assert(
    fc.property(fc.oneof(rectangle, triangle, ring), (shape) => {
      const files = emitGerber(assembled(shape, { board: 'ptfe-glass-0.787-35' }));
      const copper = files.find(({ path }) => path.endsWith('top-copper.gbr'));
      const { regions } = readGerber(copper?.bytes ?? new Uint8Array());
      const metal = regions.reduce((sum, { polarity, areaMm2 }) => sum + (polarity === 'dark' ? areaMm2 : -areaMm2), 0);
      expect(Math.abs(metal / shape.area - 1)).toBeLessThan(1e-5);
    }),
    { seed: SEED, numRuns: 60 },
  );
});

describeWithClients(['ezdxf'], 'cut, read by ezdxf', () => {
  test('outside less openings is the area of the sizes', () => {
    fc.assert(
      fc.property(fc.oneof(rectangle, triangle), (shape) => {
        const [file] = emitDxf(assembled(shape, { sheet: 'brass-0.5', process: 'laser' })).filter(
          ({ part }) => part === 'patch-driven',
        );
        const { complaints, entities } = measureDxf(file?.bytes ?? new Uint8Array());
        expect(complaints).toEqual([]);
        const area = (wanted: string) =>
          entities
            .filter(({ layer, type }) => layer === wanted && type !== 'CIRCLE')
            .reduce((sum, one) => sum + (one.area ?? 0), 0);
        expect(Math.abs((area('CUT_OUTER') - area('CUT_INNER')) / shape.area - 1)).toBeLessThan(1e-4);
      }),
      { seed: SEED, numRuns: 10 },
    );
  });
});
