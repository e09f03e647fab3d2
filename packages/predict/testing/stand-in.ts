import type { Design } from '@sheetwave/design';
import { assemble } from '@sheetwave/geometry';
import { type Complex, onePortResponse, patchResonance, type Response, sweepFrequencies } from '@sheetwave/rf';

/**
 * A stand-in for a field solution: invented physics of the right kind, in milliseconds. Patches as resonators that load and couple each
 * other by their gaps and sizes, a pin with its inductance, and a weak mode beside the band that no circuit of the tool has.
 * It is for tests of the loop around a solver, and says nothing of any antenna.
 */
export function standInSolve(design: Design, spanShare = 0.25): Response {
  const { assembly } = assemble(design);
  if (assembly === undefined) throw new Error('the stand-in needs a design that can be made');
  const { lowHz, highHz } = design.band;
  const centreHz = (lowHz + highHz) / 2;
  const layers = design.layers.map((layer, i) => {
    if (layer.shape.kind !== 'rectangle') throw new Error('the stand-in knows rectangles');
    const below = i === 0 ? 0 : (assembly.layerHeights[i - 1]?.topMm ?? 0);
    const gapM = ((assembly.layerHeights[i]?.undersideMm ?? 1) - below) / 1000;
    const lengthM = layer.shape.lengthMm / 1000;
    const widthM = layer.shape.widthMm / 1000;
    const alone = patchResonance({ lengthM, widthM, heightM: gapM, sheetM: 0.0005, permittivity: 1 }).value;
    const above = design.layers.length - 1 - i;
    return {
      lengthM,
      widthM,
      gapM,
      hz: alone * (1 - 0.035 * above),
      q: 1.05 / (1.6 * (widthM / lengthM) * ((gapM * centreHz) / 3e8)),
    };
  });
  const [driven] = layers;
  if (driven === undefined || design.feed.kind !== 'probe') throw new Error('the stand-in knows probes');
  const inM = design.feed.fromEdgeMm / 1000;
  const place = Math.sin((Math.PI * (driven.lengthM / 2 - inM)) / (driven.lengthM + 1.7 * driven.gapM)) ** 2;
  const ratioOhm = 480 * (driven.lengthM / driven.widthM) * ((driven.gapM * centreHz) / 3e8) * place;
  const pinOhm =
    377 * ((driven.gapM * centreHz) / 3e8) * (Math.log(0.3 / ((centreHz / 1e9) * Math.PI * 0.46e-3)) - 0.58);
  const impedance = (freqHz: number): Complex => {
    let behind: Complex = { re: 0, im: 0 };
    for (let i = layers.length - 1; i >= 0; i--) {
      const own = layers[i];
      if (own === undefined) continue;
      const x = freqHz / own.hz - own.hz / freqHz;
      const below = layers[i - 1];
      const coupling =
        below === undefined
          ? 0
          : 0.16 * Math.sqrt(0.006 / own.gapM) * Math.sqrt(own.lengthM / below.lengthM) * (1 + 0.4 * x);
      const yRe = 1 / own.q + behind.re;
      const yIm = x + behind.im;
      const size = yRe ** 2 + yIm ** 2;
      const factor = i === 0 ? ratioOhm : coupling ** 2;
      const turn = i === 0 ? 0 : 0.08;
      const inverse = { re: yRe / size, im: -yIm / size };
      behind = { re: factor * (inverse.re - turn * inverse.im), im: factor * (inverse.im + turn * inverse.re) };
    }
    const far = freqHz / (1.5 * centreHz) - (1.5 * centreHz) / freqHz;
    const mode = 12 / (0.0025 + far ** 2);
    return { re: behind.re + 0.05 * mode, im: behind.im + (pinOhm * freqHz) / centreHz - 0.05 * far * mode };
  };
  return onePortResponse({
    origin: 'prediction',
    method: 'stand-in for tests',
    error: { origin: 'invented' },
    freqHz: sweepFrequencies(lowHz * (1 - spanShare), highHz * (1 + spanShare), 121),
    referenceOhm: 50,
    impedance,
  });
}
