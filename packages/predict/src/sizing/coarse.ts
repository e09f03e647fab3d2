import type { Design, PatchShape } from '@sheetwave/design';
import { assemble, type LayerHeight } from '@sheetwave/geometry';
import { FREE_SPACE_IMPEDANCE, patchResonance, SPEED_OF_LIGHT } from '@sheetwave/rf';

/** Length and width, m, of the rectangle that stands in for a shape; a disc by the side of its resonant square (0.87 of the diameter: 1.841/2 of circle over half wave, J1' zero 1.8412). */
function standIn(shape: PatchShape): { readonly lengthM: number; readonly widthM: number } {
  switch (shape.kind) {
    case 'rectangle':
      return { lengthM: shape.lengthMm / 1000, widthM: shape.widthMm / 1000 };
    case 'circle': {
      const sideM = ((Math.PI / 2 / 1.8412) * shape.diameterMm) / 1000;
      return { lengthM: sideM, widthM: sideM };
    }
    case 'ring': {
      const sideM = ((shape.outerMm + shape.innerMm) * (Math.PI / 4)) / 1000;
      return { lengthM: sideM, widthM: sideM };
    }
    case 'triangle': {
      const sideM = ((3 / 4) * shape.sideMm) / 1000;
      return { lengthM: sideM, widthM: sideM };
    }
    case 'outline':
      return { lengthM: 0.01, widthM: 0.01 };
  }
}

/** From what is below a layer to its underside, m. */
function gapM(heights: readonly LayerHeight[], index: number): number {
  const below = index === 0 ? 0 : (heights[index - 1]?.topMm ?? 0);
  return Math.max(0.1, (heights[index]?.undersideMm ?? 1) - below) / 1000;
}

/**
 * Parameters of a resonator chain (see `ResonatorChain`) by closed forms: each patch alone over what lies below it. They are far from the
 * truth of a stack and only their slopes are used, where sizing begins: which way a resonance goes with which size, and about how far.
 * Jackson and Alexopoulos, IEEE Trans. AP-39 (1991) 407: R_edge/Q = (4/pi) eta0 (L/W)(h/lambda), 1/Q = 1.6 (W/L)(h/lambda) in air with p = 0.76.
 */
export function coarseParameters(design: Design, centreHz: number, resonators: number): readonly number[] | undefined {
  const { assembly } = assemble(design);
  if (assembly === undefined) return undefined;
  const lambdaM = SPEED_OF_LIGHT / centreHz;
  const filling = fillingOf(design);
  const links = Array.from({ length: resonators }, (_, index): readonly number[] => {
    const layer = design.layers[index];
    if (layer === undefined) return [-0.01, 0, 0, 0.1];
    const size = standIn(layer.shape);
    const heightM = gapM(assembly.layerHeights, index);
    const permittivity = index === 0 ? filling : 1;
    const resonance = patchResonance({ ...size, heightM, sheetM: 0, permittivity }).value;
    const loss = (1.6 * (size.widthM / size.lengthM) * (heightM / lambdaM)) / permittivity;
    const own = [2 * Math.log(resonance / centreHz), loss];
    // Coupling through a gap falls as the gap opens; that it falls as its square root is a guess to begin with.
    return index === 0 ? own : [-0.02 * Math.sqrt(0.006 / heightM), 0, ...own];
  });
  return [
    0,
    seriesReactance(design, lambdaM, gapM(assembly.layerHeights, 0)),
    ...feedStrength(design, lambdaM, gapM(assembly.layerHeights, 0)),
    ...links.flat(),
  ];
}

function fillingOf({ reflector, layers }: Design): number {
  return layers[0]?.build.kind === 'on-reflector-board' && reflector.material.kind === 'board'
    ? reflector.material.laminate.permittivity
    : 1;
}

/** Of the pin, over the reference: (eta0 h/lambda)(ln(2/(k0 a)) - 0.5772) (thin substrates; Balanis ch. 14, memory). */
function seriesReactance({ feed, coax }: Design, lambdaM: number, heightM: number): number {
  if (feed.kind !== 'probe') return 0;
  const radiusM = feed.probeDiameterMm / 2000;
  const reactance = FREE_SPACE_IMPEDANCE * (heightM / lambdaM) * (Math.log(lambdaM / (Math.PI * radiusM)) - 0.5772);
  return Math.max(0, reactance) / coax.coax.impedanceOhm;
}

function feedStrength({ feed, coax, layers }: Design, lambdaM: number, heightM: number): readonly [number, number] {
  const [driven] = layers;
  if (driven === undefined) return [0.2, 0];
  const { lengthM, widthM } = standIn(driven.shape);
  const inM = feed.kind === 'probe' ? feed.fromEdgeMm / 1000 : feed.kind === 'inset' ? feed.depthMm / 1000 : 0;
  const wholeM = lengthM + 1.6 * heightM;
  const place = Math.sin((Math.PI * (lengthM / 2 - inM)) / wholeM) ** 2;
  const strength = (4 / Math.PI) * FREE_SPACE_IMPEDANCE * (lengthM / widthM) * (heightM / lambdaM) * place;
  return [strength / coax.coax.impedanceOhm, 0];
}
