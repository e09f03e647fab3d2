import type { Finding, Layer } from '@sheetwave/design';
import type { Assembly, LayerHeight } from '../assembly.ts';
import { errorFinding, mm } from '../finding.ts';

/** Rounding of sums of heights, mm. */
const DUST = 1e-6;

/** Layers out of order, gaps that are not their spacer's height, and patches placed at another height than their layer's. */
export function stackFindings(assembly: Assembly): Finding[] {
  const { design, layerHeights } = assembly;
  if (layerHeights.length !== design.layers.length)
    return [wrongHeight(0, `${layerHeights.length} heights`, `for ${design.layers.length} layers`)];
  return design.layers.flatMap((layer, i) => {
    const height = layerHeights[i];
    if (height === undefined) return [];
    return [
      ...bodyFindings(height, i),
      ...gapFindings(layer, height, { i, seat: layerHeights[i - 1]?.bodyTopMm ?? 0 }),
      ...placeFindings(assembly, height, i),
    ];
  });
}

function bodyFindings(height: LayerHeight, i: number): Finding[] {
  const { bodyUndersideMm, undersideMm, topMm, bodyTopMm } = height;
  const ordered = bodyUndersideMm <= undersideMm + DUST && undersideMm < topMm && topMm <= bodyTopMm + DUST;
  if (ordered && undersideMm > 0) return [];
  return [
    wrongHeight(
      i,
      `metal from ${mm(undersideMm)} to ${mm(topMm)}`,
      'metal above the reflector, inside its sheet or board',
    ),
  ];
}

function gapFindings(layer: Layer, height: LayerHeight, below: { i: number; seat: number }): Finding[] {
  const gap = height.bodyUndersideMm - below.seat;
  const wanted = spacerGap(layer);
  if (wanted === undefined || Math.abs(gap - wanted) <= DUST) return [];
  return [wrongHeight(below.i, `a gap of ${mm(gap)}`, `over a spacer of ${mm(wanted)}`)];
}

function spacerGap({ spacer }: Layer): number | undefined {
  if (spacer === undefined) return undefined;
  return spacer.kind === 'stock' ? spacer.spacer.bodyMm : spacer.heightMm;
}

function placeFindings({ parts, placements }: Assembly, height: LayerHeight, i: number): Finding[] {
  const patches = new Set(
    parts.flatMap((part) =>
      (part.form === 'plate' || part.form === 'board') && part.role === 'patch' ? [part.id] : [],
    ),
  );
  const off = placements.find(
    (p) => p.layer === i && patches.has(p.part) && Math.abs(p.at.z - height.bodyUndersideMm) > DUST,
  );
  if (off === undefined) return [];
  return [
    wrongHeight(i, `${off.part} placed at ${mm(off.at.z)}`, `while its layer begins at ${mm(height.bodyUndersideMm)}`),
  ];
}

function wrongHeight(layer: number, value: string, allowed: string): Finding {
  return errorFinding('height-differs', `layer[${layer}]`, {
    value,
    allowed,
    remedy: 'report this: the stack does not follow the design',
  });
}
