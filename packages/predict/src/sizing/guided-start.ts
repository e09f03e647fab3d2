import type { Design, PatchShape } from '@sheetwave/design';
import { SPEED_OF_LIGHT } from '@sheetwave/rf';
import { allowedSize, type Variable } from './variables.ts';

/** A patch and the gap below it, in wavelengths at the middle of the band. */
interface Patch {
  readonly length: number;
  readonly width: number;
  readonly gap: number;
}

interface Stack {
  /** From the edge of the driven patch to the pin. */
  readonly fromEdge: number;
  /** From the reflector outward. */
  readonly patches: readonly Patch[];
}

/**
 * Stacks of patches of sheet over a probe, in wavelengths: places to begin from, not results. They are what sizing made of stacks at 5.5 GHz,
 * with gaps near those that Waterhouse advises for probe-fed stacks on foam (IEEE Trans. AP-47 (1999) 1780; memory), and go to any
 * other frequency by the scaling of Maxwell's equations; pins and sheets that do not scale along are left to sizing. A third patch
 * begins as a small director, which hardly touches the match.
 */
const STACKS: readonly Stack[] = [
  { fromEdge: 0.06, patches: [{ length: 0.415, width: 0.5, gap: 0.055 }] },
  {
    fromEdge: 0.06,
    patches: [
      { length: 0.475, width: 0.396, gap: 0.054 },
      { length: 0.359, width: 0.49, gap: 0.053 },
    ],
  },
  {
    fromEdge: 0.04,
    patches: [
      { length: 0.476, width: 0.409, gap: 0.06 },
      { length: 0.383, width: 0.424, gap: 0.042 },
      { length: 0.222, width: 0.223, gap: 0.112 },
    ],
  },
];

/** Diameter of the disc that resonates as a square of this side (J1' zero 1.8412 over a quarter of a circle's turn). */
const DISC = 1.8412 / (Math.PI / 2);

function lengthOf(shape: PatchShape, patch: Patch, name: string): number | undefined {
  if (shape.kind === 'rectangle') return name === 'length' ? patch.length : name === 'width' ? patch.width : undefined;
  return shape.kind === 'circle' && name === 'diameter' ? DISC * patch.length : undefined;
}

/** What a free dimension is in such a stack, in wavelengths; undefined for one that it says nothing of. */
function shareOf({ layers }: Design, stack: Stack, path: string): number | undefined {
  if (path === 'feed.from_edge') return stack.fromEdge;
  const [, index, name = ''] = /^layer\[(\d+)\]\.(\w+)/.exec(path) ?? [];
  const layer = layers[Number(index)];
  const patch = stack.patches[Number(index)];
  if (layer === undefined || patch === undefined) return undefined;
  return name === 'spacer' ? patch.gap : lengthOf(layer.shape, patch, name);
}

/**
 * Sizes to begin with when those of the design are far from its band: of single stacks of up to three patches in air on a probe. In the
 * order of the variables, mm, within their ranges; a dimension that such a stack says nothing of stays as it is. Undefined for other designs.
 */
export function guidedSizes(
  design: Design,
  variables: readonly Variable[],
  centreHz: number,
): readonly number[] | undefined {
  const { layers, harness, feed, lattice } = design;
  const stack = STACKS[layers.length - 1];
  const isSingle = harness.kind === 'none' && lattice.rows * lattice.columns === 1;
  if (stack === undefined || !isSingle || feed.kind !== 'probe') return undefined;
  if (layers.some(({ build }) => build.kind !== 'sheet')) return undefined;
  const lambdaMm = (1000 * SPEED_OF_LIGHT) / centreHz;
  return variables.map((variable) => {
    const share = shareOf(design, stack, variable.path);
    return share === undefined ? variable.startMm : allowedSize(variable, share * lambdaMm);
  });
}

/**
 * A stack to begin with in a new design, mm: what `guidedSizes` would have sizing begin with.
 * @param patches Patches of the stack, 1 to 3; a RangeError for others.
 */
export function startingStack(patches: number, centreHz: number): StartingStack {
  const stack = STACKS[patches - 1];
  if (stack === undefined)
    throw new RangeError(`A stack to begin with has 1 to ${STACKS.length} patches, got ${patches}.`);
  const lambdaMm = (1000 * SPEED_OF_LIGHT) / centreHz;
  return {
    fromEdgeMm: stack.fromEdge * lambdaMm,
    patches: stack.patches.map(({ length, width, gap }) => ({
      lengthMm: length * lambdaMm,
      widthMm: width * lambdaMm,
      gapMm: gap * lambdaMm,
    })),
  };
}

export interface StartingStack {
  readonly fromEdgeMm: number;
  /** From the reflector outward; the gap below each. */
  readonly patches: readonly { readonly lengthMm: number; readonly widthMm: number; readonly gapMm: number }[];
}
