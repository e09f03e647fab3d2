import { defineDesign } from '@sheetwave/design';
import { emitStl } from '@sheetwave/emit-stl';
import { assemble } from '@sheetwave/geometry';
import { expect, test } from 'vitest';

/** One square patch of 24 mm on a printed spacer. */
function gaugeFor(outerMm: number) {
  const { design } = defineDesign({
    format: 1,
    name: 'One patch',
    band: { low: '5.15 GHz', high: '5.35 GHz' },
    reflector: { sheet: 'brass-1.0', size: { width: '120 mm', height: '120 mm' } },
    layer: [
      {
        shape: 'rectangle',
        length: '24 mm',
        width: '24 mm',
        sheet: 'brass-0.5',
        spacer: { printed: '7 mm', outer: `${outerMm} mm` },
      },
    ],
    feed: { from_edge: '2.5 mm' },
    coax: { stock: 'semi-rigid-086' },
    hardware: { screw: 'm3-pan-25-brass' },
  });
  const assembly = design === undefined ? undefined : assemble(design).assembly;
  if (assembly === undefined) throw new Error('no assembly');
  const { files, notes } = emitStl(assembly);
  return {
    files: files.map((file) => file.path).filter((path) => path.includes('height-gauge')),
    notes: notes.filter((note) => note.startsWith('height gauge')),
  };
}

test('a gauge is made while its tooth can come under the layer beside the spacer', () => {
  expect(gaugeFor(8)).toEqual({ files: ['jigs/height-gauge.stl', 'jigs/height-gauge.3mf'], notes: [] });
});

// Random designs found that a tooth of negative length made a comb that crosses itself.
test.each([22, 24, 40])(
  'none is made for a spacer of %d mm, which leaves no room, and the reason is told',
  (outerMm) => {
    expect(gaugeFor(outerMm)).toEqual({
      files: [],
      notes: ['height gauge left out: a layer is hardly wider than its spacer'],
    });
  },
);
