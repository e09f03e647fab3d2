import { describe, expect, it } from 'vitest';
import { defineDesign } from './read-design.ts';
import type { DesignFile } from './schema/design-file.ts';

describe('what is done to a reflector', () => {
  const reading = (change: (file: typeof singleFile) => unknown) => defineDesign(change(singleFile) as DesignFile);
  const singleFile = {
    format: 1,
    name: 'Folded',
    band: { low: '5.1 GHz', high: '5.3 GHz' },
    reflector: { sheet: 'aluminium-1.0' },
    layer: [{ shape: 'rectangle', length: '25 mm', width: '30 mm', sheet: 'brass-0.5', spacer: 'm3-mf-5-brass' }],
    feed: { from_edge: '5 mm' },
    coax: { stock: 'semi-rigid-141', connector: 'n-plug-cable' },
  } as const;

  it('is a fold with the neutral line by its radius: 0.33 below one thickness, 0.4 up to three, 0.5 above', () => {
    // Shop handbooks (memory); the sheet is 1 mm thick.
    for (const [radius, k] of [
      ['0.5 mm', 0.33],
      [undefined, 0.4],
      ['3 mm', 0.4],
      ['4 mm', 0.5],
    ] as const) {
      const fold = { sides: 'all', height: '12 mm', ...(radius === undefined ? {} : { inside_radius: radius }) };
      const { design } = reading((file) => ({ ...file, reflector: { ...file.reflector, fold } }));
      expect(design?.reflector.fold).toMatchObject({ kFactor: k, direction: 'back' });
      expect(design?.reflector.fold?.sides).toEqual(['left', 'right', 'top', 'bottom']);
    }
  });

  it('is no fold in a board', () => {
    const fold = { sides: ['left'], height: '12 mm' };
    const { findings } = reading((file) => ({ ...file, reflector: { board: 'ptfe-glass-0.787-35', fold } }));
    expect(findings).toMatchObject([{ code: 'needs-sheet', path: 'reflector.fold' }]);
  });

  it('is a clamp by the pole, or by own numbers for a pole beyond the table', () => {
    const clamp = (fields: object) => reading((file) => ({ ...file, reflector: { ...file.reflector, clamp: fields } }));
    // 40 mm takes an M6 U-bolt: 6.6 mm hole (ISO 273 medium), 10 mm across flats (ISO 4032); confirmed.
    expect(clamp({ pole: '40 mm' }).design?.reflector.clamp).toMatchObject({
      holeMm: 6.6,
      acrossMm: 10,
      standoffMm: 0,
    });
    expect(clamp({ pole: '80 mm' }).findings).toMatchObject([{ code: 'missing-field', path: 'reflector.clamp' }]);
    const own = clamp({ pole: '80 mm', spacing: '95 mm', hole: '11 mm', nut: '17 mm' });
    expect(own.design?.reflector.clamp).toMatchObject({ spacingMm: 95, holeMm: 11, acrossMm: 17 });
    expect(clamp({ pole: '40 mm', spacing: '41 mm' }).findings).toMatchObject([{ path: 'reflector.clamp.spacing' }]);
  });

  it('is the body hole of a panel connector, in a sheet', () => {
    const { design } = reading((file) => ({ ...file, coax: { ...file.coax, connector: 'n-jack-panel-4' } }));
    expect(design?.coax).toMatchObject({ throughHoleMm: 13, lengthMm: 0 });
  });

  it('asks a panel connector of one’s own for its holes', () => {
    const { findings } = reading((file) => ({
      ...file,
      coax: { ...file.coax, connector: 'mine' },
      stock: { connector: { mine: { mount: 'panel' } } },
    }));
    expect(findings.map(({ path }) => path)).toEqual([
      'stock.connector.mine.body_hole',
      'stock.connector.mine.flange_holes',
    ]);
  });

  it('is the holes of a box', () => {
    const box = { part_of: 'reflector', drain: { diameter: '4 mm' }, gland: { diameter: '12.5 mm' } };
    const { design } = reading((file) => ({ ...file, box }));
    expect(design?.box).toEqual({ partOf: 'reflector', wallMm: 8, drainMm: 4, glandMm: 12.5 });
  });
});
