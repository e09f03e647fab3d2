import { type Design, readDesign } from '@sheetwave/design';
import { vswrInBand } from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';
import { FREE, FREE_PARASITIC, stackText } from '../../testing/designs.ts';
import { standInSolve } from '../../testing/stand-in.ts';
import { type Sizing, type SizingOptions, sizeDesign } from './size-design.ts';

const solve = async (design: Design) => ({ response: standInSolve(design) });

async function sized(options: Omit<SizingOptions, 'solve'> & Partial<SizingOptions>): Promise<Sizing> {
  const result = await sizeDesign({ solve, ...options });
  if (!result.ok) throw new Error(JSON.stringify(result.findings));
  return result;
}

describe('sizeDesign', () => {
  it('brings two patches to VSWR 1.5 over 11 % within 25 solutions, keeps the comments and says what it did', async () => {
    const designText = stackText(2, FREE + FREE_PARASITIC);
    const found = await sized({ designText });
    expect(found).toMatchObject({ ended: 'reached', reached: true, limits: { sentences: [] } });
    expect(found.steps.length).toBeLessThanOrEqual(25);
    // The text that comes out is read and solved again here: it is that design, and it has that match.
    const { design, findings } = readDesign(found.best.text);
    expect(findings).toEqual([]);
    if (design === undefined) throw new Error('the design reads');
    expect(vswrInBand(standInSolve(design), design.band)?.worst.vswr).toBeCloseTo(found.best.score.vswr, 9);
    expect(found.best.score.vswr).toBeLessThan(1.5);
    expect(found.best.text.match(/# \w+/g)).toEqual(designText.match(/# \w+/g));
    for (const free of design.free) {
      if (free.kind !== 'length') continue;
      expect(free.valueMm).toBeGreaterThanOrEqual(free.fromMm);
      expect(free.valueMm).toBeLessThanOrEqual(free.toMm);
      expect(free.valueMm).toBe(found.best.sizesMm[free.path]);
    }
    // The printed spacer keeps to its step.
    expect(Math.abs(((found.best.sizesMm['layer[0].spacer.printed'] ?? 0) * 10) % 1)).toBeCloseTo(0, 6);
  });

  it('says what limits a single patch that cannot do it: one resonance of its Q', async () => {
    const found = await sized({ designText: stackText(1, FREE), budget: 14 });
    expect(found.reached).toBe(false);
    expect(found.limits.sentences.join(' ')).toMatch(
      /One resonance of Q \d+\.\d holds VSWR 1\.5 over \d\.\d % at best, and 10\.9 % are wanted/,
    );
    expect(found.best.score.cost).toBeLessThan(found.start.score.cost);
  });

  it('rounds to what a caliper holds, solves that, and keeps what it was before', async () => {
    const found = await sized({ designText: stackText(2, FREE + FREE_PARASITIC), roundMm: 0.5 });
    for (const mm of Object.values(found.best.sizesMm))
      expect(Math.abs(10 * mm - Math.round(10 * mm))).toBeLessThan(1e-9);
    expect(found.best.sizesMm['layer[0].length']).toBe(
      Math.round((found.best.sizesMm['layer[0].length'] ?? 0) * 2) / 2,
    );
    expect(found.unrounded?.score.cost).toBeLessThanOrEqual(found.best.score.cost + 0.2);
    expect(found.steps).toContain(found.unrounded);
  });

  it('chooses spacers out of stock and writes their ids', async () => {
    const text = stackText(2, FREE + FREE_PARASITIC)
      .replace('spacer = { printed = "5 mm", outer = "8 mm" }', 'spacer = "plain-m3-6-nylon"')
      .replace(
        'layer.parasitic-1.spacer = { from = "3 mm", to = "9 mm" }',
        'layer.parasitic-1.spacer = { from = "3 mm", to = "8 mm" }',
      );
    const found = await sized({ designText: text, budget: 12 });
    const spacers = new Set(found.steps.map((step) => /"plain-m3-(\d+)-nylon"/.exec(step.text)?.[1]));
    for (const mm of spacers) expect(['3', '4', '5', '6', '8']).toContain(mm);
    expect(found.best.score.cost).toBeLessThan(found.start.score.cost);
  });

  it('tells of every solution, the best so far among them, and ends after the one in hand when asked', async () => {
    const stop = new AbortController();
    const told: boolean[] = [];
    const found = await sized({
      designText: stackText(2, FREE),
      signal: stop.signal,
      onStep: (step) => {
        told.push(step.best);
        if (step.solve === 3) stop.abort();
      },
    });
    expect(found.ended).toBe('interrupted');
    expect(told).toHaveLength(3);
    expect(told[0]).toBe(true);
    expect(found.best.score.cost).toBe(Math.min(...found.steps.map(({ score }) => score.cost)));
  });

  it('keeps to its budget', async () => {
    let solves = 0;
    const counting = async (design: Design) => {
      solves += 1;
      return { response: standInSolve(design) };
    };
    const found = await sized({ designText: stackText(1, FREE), budget: 4, solve: counting });
    expect(solves).toBe(4);
    expect(found.ended).toBe('budget');
  });

  it('finds faults in the design before anything is solved', async () => {
    const never = async (): Promise<never> => {
      throw new Error('nothing may be solved');
    };
    expect(await sizeDesign({ designText: stackText(1), solve: never })).toMatchObject({
      ok: false,
      findings: [{ code: 'nothing-free', path: 'free' }],
    });
    expect(await sizeDesign({ designText: 'format = 1', solve: never })).toMatchObject({ ok: false });
    const tooFar = stackText(1, FREE).replace('from = "0.8 mm", to = "6 mm"', 'from = "25 mm", to = "30 mm"');
    expect(await sizeDesign({ designText: tooFar, solve: never })).toMatchObject({
      ok: false,
      findings: [{ code: 'start-not-makeable' }],
    });
  });
});
