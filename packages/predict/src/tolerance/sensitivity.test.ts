import { type Design, readDesign, withDimensions } from '@sheetwave/design';
import {
  onePortResponse,
  patchImpedance,
  patchSensitivity,
  type Response,
  resonanceHz,
  sweepFrequencies,
  vswrInBand,
} from '@sheetwave/rf';
import { describe, expect, it } from 'vitest';
import { stackText } from '../../testing/designs.ts';
import { standInSolve } from '../../testing/stand-in.ts';
import { sensitivitiesOf } from './sensitivity.ts';

function designOf(text: string): Design {
  const { design } = readDesign(text);
  if (design === undefined) throw new Error('the text is a design');
  return design;
}

function patchOf(design: Design) {
  const [layer] = design.layers;
  if (layer?.shape.kind !== 'rectangle' || layer.spacer?.kind !== 'printed' || layer.build.kind !== 'sheet')
    throw new Error('one rectangle');
  return {
    lengthM: layer.shape.lengthMm / 1000,
    widthM: layer.shape.widthMm / 1000,
    heightM: layer.spacer.heightMm / 1000,
    sheetM: layer.build.sheet.thicknessMm / 1000,
    permittivity: 1,
  };
}

/** A patch that is nothing but the resonance of the closed form: its slopes are known otherwise. */
async function closedForm(design: Design): Promise<Response> {
  const resonance = resonanceHz(patchOf(design));
  return onePortResponse({
    origin: 'prediction',
    method: 'closed form',
    error: { origin: 'none' },
    freqHz: sweepFrequencies(4.4e9, 6.6e9, 111),
    referenceOhm: 50,
    impedance: (f) => patchImpedance({ resonanceHz: resonance, quality: 12, resistanceOhm: 65, seriesOhm: 0 }, f),
  });
}

describe('sensitivitiesOf', () => {
  // The slopes of the closed form by `patchSensitivity`, which another test holds to published fields; computed.
  it('finds the slopes of a resonance that are known', async () => {
    const design = designOf(stackText(1));
    const found = await sensitivitiesOf(design, { solve: closedForm });
    const wanted = patchSensitivity(patchOf(design));
    const mhz = (path: string) => found?.sensitivities.find((one) => one.path === path)?.mhzPerTenthMm;
    // A curve that moves by a share moves by that share of the middle of the band, where the figure is stated.
    const tenth = (hzPerM: number) =>
      ((hzPerM * 1e-4) / 1e6) * (Math.sqrt(5.2e9 * 5.8e9) / resonanceHz(patchOf(design)));
    const close = (path: string, hzPerM: number, share: number) =>
      expect(Math.abs((mhz(path) ?? 0) / tenth(hzPerM) - 1), path).toBeLessThan(share);
    close('layer[0].length', wanted.perLength, 0.02);
    close('layer[0].width', wanted.perWidth, 0.05);
    close('layer[0].spacer.printed', wanted.perHeight, 0.03);
    close('layer[0].sheet', wanted.perSheet, 0.04);
    expect(mhz('feed.from_edge')).toBeCloseTo(0, 9);
    expect(found?.solves).toBe(2 * 5 + 4);
    expect(found?.model.error).toBeLessThan(0.01);
    const length = found?.sensitivities.find(({ path }) => path === 'layer[0].length');
    const steepest = found?.sensitivities.filter(({ halfStep }) => halfStep !== undefined);
    expect(steepest?.map(({ path }) => path)).toEqual(['layer[0].spacer.printed']);
    expect(steepest?.[0]?.halfStep).toBeLessThan(0.02);
    expect(length?.resonances[0]?.mhzPerTenthMm).toBeCloseTo(
      tenth(wanted.perLength) * (resonanceHz(patchOf(design)) / Math.sqrt(5.2e9 * 5.8e9)),
      0,
    );
  });

  it('agrees with repeated solutions of a stack, of one dimension and of all at once', async () => {
    const design = designOf(stackText(2));
    const found = await sensitivitiesOf(design, { solve: async (one) => standInSolve(one) });
    if (found === undefined) throw new Error('it was not interrupted');
    const worst = (mm: number) => {
      const response = standInSolve(withDimensions(design, { 'layer[1].length': 19 + mm }));
      return (
        20 *
        Math.log10(
          ((vswrInBand(response, design.band)?.worst.vswr ?? 1) - 1) /
            ((vswrInBand(response, design.band)?.worst.vswr ?? 1) + 1),
        )
      );
    };
    const parasitic = found.sensitivities.find(({ path }) => path === 'layer[1].length');
    expect(parasitic?.dbPerTenthMm).toBeCloseTo((worst(0.1) - worst(-0.1)) / 2, 1);
    expect(found.model.error).toBeLessThan(0.02);
  });

  it('takes only the dimensions that are asked for, and refuses others', async () => {
    const design = designOf(stackText(1));
    const found = await sensitivitiesOf(design, { solve: closedForm, paths: ['layer[0].length'] });
    expect(found?.sensitivities.map(({ path }) => path)).toEqual(['layer[0].length']);
    await expect(sensitivitiesOf(design, { solve: closedForm, paths: ['layer[4].length'] })).rejects.toThrow(
      RangeError,
    );
  });
});
