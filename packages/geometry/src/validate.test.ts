import type { Finding } from '@sheetwave/design';
import { describe, expect, it } from 'vitest';
import type { Assembly, BoardPart, Part, PlatePart } from './assembly.ts';
import { circleContour, rectangleContour } from './contours.ts';
import type { Contour, Hole, Outline } from './outline.ts';
import { assemblyOf, etchedArray, rodArray, stripArray } from './testing/designs.ts';
import { reverseContour } from './transform.ts';
import { validate } from './validate.ts';

const codes = (findings: readonly Finding[]): string[] => findings.map(({ code }) => code);
const of = (findings: readonly Finding[], code: string): Finding | undefined => findings.find((f) => f.code === code);

/** The assembly with one part changed. */
function withPart<P extends Part>(assembly: Assembly, id: string, change: (part: P) => P): Assembly {
  const parts = assembly.parts.map((part) => (part.id === id ? change(part as P) : part));
  return { ...assembly, parts };
}

/** The rod array with the outline of its driven patch changed. */
function withOutline(change: (outline: Outline) => Outline): Finding[] {
  const assembly = assemblyOf(rodArray);
  return validate(
    withPart<PlatePart>(assembly, 'patch-driven', (part) => ({ ...part, outline: change(part.outline) })),
  );
}

function path(contour: Contour): Extract<Contour, { kind: 'path' }> {
  if (contour.kind === 'circle') throw new Error('a path was expected');
  return contour;
}

describe('an assembly that is right', () => {
  it('has no errors, whichever harness joins it', () => {
    for (const file of [rodArray, stripArray, etchedArray]) {
      const errors = validate(assemblyOf(file)).filter((finding) => finding.severity === 'error');
      expect(errors).toEqual([]);
    }
  });
});

describe('a broken outline', () => {
  it('is found open', () => {
    const findings = withOutline((outline) => {
      const outer = path(outline.outer);
      return { ...outline, outer: { ...outer, start: { x: outer.start.x + 0.25, y: outer.start.y } } };
    });
    expect(of(findings, 'broken-contour')).toMatchObject({ severity: 'error', path: 'part patch-driven' });
    expect(of(findings, 'broken-contour')?.value).toContain('a gap of 0.25 mm');
  });

  it('is found to cross itself', () => {
    const bow = [
      { x: 0, y: 0 },
      { x: 20, y: 20 },
      { x: 20, y: 0 },
      { x: 0, y: 15 },
    ];
    const segments = [...bow.slice(1), { x: 0, y: 0 }].map((to) => ({ kind: 'line', to }) as const);
    const findings = withOutline((o) => ({ ...o, outer: { kind: 'path', start: { x: 0, y: 0 }, segments } }));
    expect(of(findings, 'broken-contour')?.value).toContain('crosses or touches itself');
  });

  it('is found to run the wrong way', () => {
    const findings = withOutline((outline) => ({ ...outline, outer: reverseContour(outline.outer) }));
    expect(of(findings, 'broken-contour')?.value).toContain('runs clockwise');
  });

  it('is found to have a segment of no length', () => {
    const findings = withOutline((outline) => {
      const outer = path(outline.outer);
      const [first, ...rest] = outer.segments;
      if (first === undefined) throw new Error('an outline has segments');
      return { ...outline, outer: { ...outer, segments: [first, first, ...rest] } };
    });
    expect(of(findings, 'broken-contour')?.value).toContain('a segment of no length');
  });

  it('is found to have another area than the design gives', () => {
    const outer = rectangleContour({ centre: { x: 0, y: 0 }, widthMm: 26.1, heightMm: 20 });
    expect(codes(withOutline((outline) => ({ ...outline, outer })))).toContain('area-differs');
  });
});

describe('holes and cut-outs', () => {
  const hole = (x: number, y: number, diameterMm: number): Hole => ({
    purpose: 'mounting',
    centre: { x, y },
    diameterMm,
    plated: false,
  });
  const adding = (more: Hole) => withOutline((outline) => ({ ...outline, holes: [...outline.holes, more] }));

  it('are found outside, over the edge, overlapping and too near', () => {
    expect(of(adding(hole(40, 0, 2)), 'hole-outside')?.severity).toBe('error');
    expect(of(adding(hole(12.5, 0, 2)), 'hole-outside')?.severity).toBe('error');
    expect(of(adding(hole(0.5, 0, 2)), 'holes-overlap')?.severity).toBe('error');
    // The patch is 26 mm wide: 13 − 11 − 1 leaves 1 mm, and cutting by hand asks for 2 mm.
    const thin = of(adding(hole(11, 0, 2)), 'thin-web');
    expect(thin).toMatchObject({ severity: 'warning', path: 'part patch-driven' });
    expect(thin?.value).toMatch(/^1 mm between/);
    expect(codes(adding(hole(8, 5, 2)))).not.toContain('thin-web');
  });

  it('are found misplaced or with corners too tight to cut', () => {
    const cutout = (x: number): Contour =>
      reverseContour(rectangleContour({ centre: { x, y: -6 }, widthMm: 3, heightMm: 2 }));
    const cut = (x: number) => withOutline((outline) => ({ ...outline, cutouts: [cutout(x)] }));
    expect(codes(cut(12.5))).toContain('cut-out-misplaced');
    expect(codes(cut(7))).not.toContain('cut-out-misplaced');
    expect(of(cut(7), 'tight-corner')?.value).toMatch(/^inside radius 0 mm .* and 3 more$/);
    const round: Contour = {
      kind: 'path',
      start: { x: 8, y: -6 },
      segments: [
        { kind: 'arc', to: { x: 6, y: -6 }, centre: { x: 7, y: -6 }, sense: 'cw' },
        { kind: 'arc', to: { x: 8, y: -6 }, centre: { x: 7, y: -6 }, sense: 'cw' },
      ],
    };
    expect(codes(withOutline((outline) => ({ ...outline, cutouts: [round] })))).not.toContain('tight-corner');
  });
});

describe('the antenna put together', () => {
  const right = assemblyOf(rodArray);

  it('is found with patches that touch', () => {
    // 26 mm wide patches: neighbours 44 mm apart do not touch, 25 mm apart do.
    const placements = right.placements.map((p) =>
      p.part === 'patch-driven' ? { ...p, at: { ...p.at, x: (p.at.x * 25) / 44 } } : p,
    );
    const finding = of(validate({ ...right, placements }), 'patches-overlap');
    expect(finding?.path).toBe('layer[0]');
    expect(finding?.value).toContain('25 mm apart');
  });

  it('is found with holes that are not in line', () => {
    const placements = right.placements.map((p) =>
      p.part === 'patch-parasitic' ? { ...p, at: { ...p.at, x: p.at.x + 0.1 } } : p,
    );
    const finding = of(validate({ ...right, placements }), 'holes-not-in-line');
    expect(finding?.path).toBe('part patch-parasitic');
    expect(finding?.value).toContain('and 3 more');
  });

  it('is found with a reflector too small, and patches beyond it', () => {
    const findings = validate({ ...right, reflector: { ...right.reflector, widthMm: 60 } });
    expect(of(findings, 'reflector-small')?.severity).toBe('warning');
    expect(of(findings, 'patch-beyond-reflector')?.severity).toBe('error');
    // Half the pitch and half the patch are 35 mm, half the reflector 30 mm.
    expect(of(findings, 'patch-beyond-reflector')?.allowed).toContain('up to 5 mm');
  });

  it('is found with quantities, heights and numbers that do not match', () => {
    const twice = withPart<PlatePart>(right, 'patch-driven', (part) => ({ ...part, quantity: 8 }));
    expect(of(validate(twice), 'quantity-differs')?.allowed).toBe('while 4 pieces are placed');
    const [driven, ...more] = right.layerHeights;
    if (driven === undefined) throw new Error('a stack has layers');
    const lifted = { ...driven, bodyUndersideMm: 5.5, undersideMm: 5.5 };
    expect(of(validate({ ...right, layerHeights: [lifted, ...more] }), 'height-differs')?.value).toContain('5.5 mm');
    const astray = { ...right, coaxPoint: { x: Number.NaN, y: 0 } };
    expect(validate(astray).map((f) => [f.code, f.path])).toEqual([['not-finite', 'coaxPoint.x']]);
  });

  it('is found with a harness that touches', () => {
    const at = (z: number) =>
      right.placements.map((p) => (p.part.startsWith('rod-level') ? { ...p, at: { ...p.at, z } } : p));
    // A rod of 1.5 mm touches the reflector below an axis height of 0.75 mm, the patch above 5 − 0.75 mm.
    expect(codes(validate({ ...right, placements: at(0.75) }))).toContain('harness-touches-reflector');
    expect(codes(validate({ ...right, placements: at(0.76) }))).not.toContain('harness-touches-reflector');
    expect(codes(validate({ ...right, placements: at(4.25) }))).toContain('harness-touches-patch');
    expect(codes(validate({ ...right, placements: at(4.24) }))).not.toContain('harness-touches-patch');
  });

  it('is found with a blank that cannot be', () => {
    const parts = right.parts.map((part) => (part.form === 'rod' ? { ...part, developedLengthMm: 10 } : part));
    expect(codes(validate({ ...right, parts }))).toContain('rod-length');
  });
});

describe('a board', () => {
  it('is found with copper beyond its edge', () => {
    const stray = { purpose: 'land', polarity: 'dark', contour: circleContour({ x: 49.5, y: 0 }, 1) } as const;
    const assembly = withPart<BoardPart>(assemblyOf(etchedArray), 'reflector', (part) => ({
      ...part,
      copper: { ...part.copper, top: [...part.copper.top, stray] },
    }));
    expect(of(validate(assembly), 'copper-outside')?.value).toContain('land reaches 0.5 mm beyond');
  });

  it('is found with an etched patch of another size', () => {
    const contour = rectangleContour({ centre: { x: 19.5, y: 19.5 }, widthMm: 21.5, heightMm: 17.6 });
    const assembly = withPart<BoardPart>(assemblyOf(etchedArray), 'reflector', (part) => ({
      ...part,
      copper: { ...part.copper, top: part.copper.top.map((p) => (p.purpose === 'patch' ? { ...p, contour } : p)) },
    }));
    expect(codes(validate(assembly))).toContain('area-differs');
    expect(codes(validate(assembly))).toContain('patches-overlap');
  });
});

describe('a large array', () => {
  it('looks at its parts in proportion to its elements, not to their square', () => {
    const single = { ...rodArray, harness: undefined };
    const { harness: _, ...plain } = single;
    const right = assemblyOf({ ...plain, lattice: { ...rodArray.lattice, rows: 1, columns: 1 } } as typeof rodArray);
    let looks = 0;
    const counted = <T extends object>(one: T): T =>
      new Proxy(one, {
        get(target, key) {
          looks++;
          return Reflect.get(target, key);
        },
      });
    const spread = (n: number): Assembly => {
      const centres = Array.from({ length: n * n }, (_unused, i) => ({ x: 44 * (i % n), y: 40 * Math.floor(i / n) }));
      const own = right.placements.filter((p) => p.element !== undefined);
      const placements = centres.flatMap(({ x, y }) =>
        own.map((p) => counted({ ...p, at: counted({ x: p.at.x + x, y: p.at.y + y, z: p.at.z }) })),
      );
      return { ...right, placements };
    };
    const looksAt = (assembly: Assembly): number => {
      looks = 0;
      validate(assembly);
      return looks;
    };
    const [small, large] = [looksAt(spread(8)), looksAt(spread(16))];
    expect(small).toBeGreaterThan(64);
    // Four times the pieces; sixteen times the looks would be the square.
    expect(large).toBeLessThan(6 * small);
  });
});
