import type { Design, Finding, Layer, SpacerEnd } from '@sheetwave/design';
import type { BoughtPart, LayerHeight, Placement, PrintedSpacerPart } from './assembly.ts';
import { errorFinding, mm, warningFinding } from './finding.ts';
import { reflectorBodyThicknessMm, reflectorUndersideMm, spacerHeightMm } from './stack-heights.ts';

export interface Fasteners {
  /** Pieces of one stack, from the back of the reflector outward. */
  readonly pieces: readonly StackPiece[];
  readonly findings: readonly Finding[];
}

export interface StackPiece {
  readonly part: Omit<BoughtPart, 'quantity'> | Omit<PrintedSpacerPart, 'quantity'>;
  /** Lowest z of the piece above the reflector's front face. */
  readonly zMm: number;
  readonly layer: number | undefined;
}

/** What holds one stack together: spacers under the layers, and the screw or nut at each end that the spacers' ends ask for. */
export function stackFasteners(design: Design, heights: readonly LayerHeight[]): Fasteners {
  const carried = design.layers.flatMap((layer, index) => (layer.spacer ? [{ layer, index }] : []));
  if (carried.length === 0) return { pieces: [], findings: [] };
  const ends = carried.map(({ layer }) => spacerEnds(layer));
  const plain = ends.filter(([below]) => below === 'plain').length;
  const spacers = carried.map(({ layer, index }) =>
    spacerPiece(design, layer, { index, height: heightAt(heights, index) }),
  );
  if (plain === ends.length) return throughScrew(design, heights, spacers);
  if (plain > 0) return { pieces: spacers, findings: [mixedSpacers()] };
  const joints = ends
    .slice(1)
    .flatMap(([below], position) => jointFinding(ends[position]?.[1], below, carried[position + 1]?.index ?? 0));
  const bottom = bottomPieces(design, ends[0]?.[0], carried[0]?.layer);
  const top = topPieces(design, ends.at(-1)?.[1], { heights, last: carried.at(-1) });
  return {
    pieces: [...bottom.pieces, ...spacers, ...top.pieces],
    findings: [...joints, ...bottom.findings, ...top.findings],
  };
}

function heightAt(heights: readonly LayerHeight[], index: number): LayerHeight {
  const height = heights[index];
  if (!height) throw new RangeError(`no height for layer ${index}`);
  return height;
}

function spacerEnds(layer: Layer): readonly [SpacerEnd, SpacerEnd] {
  return layer.spacer?.kind === 'stock' ? layer.spacer.spacer.ends : ['plain', 'plain'];
}

function spacerPiece(design: Design, layer: Layer, place: { index: number; height: LayerHeight }): StackPiece {
  if (!layer.spacer) throw new Error('a layer without a spacer');
  const zMm = place.height.bodyUndersideMm - spacerHeightMm(layer);
  if (layer.spacer.kind === 'stock') {
    const item = layer.spacer.spacer;
    return { part: bought(item), zMm, layer: place.index };
  }
  const { heightMm, outerMm } = layer.spacer;
  const part = {
    id: `printed-spacer-${layer.name}`,
    name: `printed spacer under the ${layer.name} patch`,
    form: 'printed-spacer',
    heightMm,
    outerMm,
    boreMm: layer.fixingHoleMm ?? Number(design.hardware.thread.slice(1)),
  } as const;
  return { part, zMm, layer: place.index };
}

function bought(item: BoughtPart['item']): Omit<BoughtPart, 'quantity'> {
  return { id: item.id, name: item.label, form: 'bought', item, lengthMm: undefined };
}

function throughScrew(design: Design, heights: readonly LayerHeight[], spacers: readonly StackPiece[]): Fasteners {
  const { screw, nut, washer } = design.hardware;
  const top = heights.at(-1)?.bodyTopMm ?? 0;
  const underside = reflectorUndersideMm(design);
  const washerMm = washer?.thicknessMm ?? 0;
  const needMm = top - underside + 2 * washerMm + nut.heightMm;
  const findings: Finding[] = [];
  if (screw.lengthMm < needMm) findings.push(screwTooShort(screw.lengthMm, needMm));
  else if (screw.lengthMm > needMm + 6) findings.push(screwLong(screw.lengthMm, needMm));
  return {
    pieces: [
      { part: bought(screw), zMm: underside - washerMm - screw.headHeightMm, layer: undefined },
      ...(washer ? [{ part: bought(washer), zMm: underside - washerMm, layer: undefined }] : []),
      ...spacers,
      ...(washer ? [{ part: bought(washer), zMm: top, layer: undefined }] : []),
      { part: bought(nut), zMm: top + washerMm, layer: undefined },
    ],
    findings,
  };
}

function bottomPieces(design: Design, end: SpacerEnd | undefined, layer: Layer | undefined): Fasteners {
  const { screw, nut, washer } = design.hardware;
  const underside = reflectorUndersideMm(design);
  const sheetMm = reflectorBodyThicknessMm(design);
  const washerMm = washer?.thicknessMm ?? 0;
  const washers = washer ? [{ part: bought(washer), zMm: underside - washerMm, layer: undefined }] : [];
  const spacer = layer?.spacer?.kind === 'stock' ? layer.spacer.spacer : undefined;
  if (end === 'male') {
    const nutPiece = { part: bought(nut), zMm: underside - washerMm - nut.heightMm, layer: undefined };
    const findings = gripFinding('layer[0].spacer', (spacer?.studMm ?? 0) - sheetMm - washerMm, nut.heightMm);
    return { pieces: [nutPiece, ...washers], findings };
  }
  const screwPiece = { part: bought(screw), zMm: underside - washerMm - screw.headHeightMm, layer: undefined };
  const engagedMm = screw.lengthMm - sheetMm - washerMm;
  return {
    pieces: [screwPiece, ...washers],
    findings: engagementFindings(design, engagedMm, spacer?.threadDepthMm ?? 0),
  };
}

function topPieces(
  design: Design,
  end: SpacerEnd | undefined,
  stack: { heights: readonly LayerHeight[]; last: { layer: Layer; index: number } | undefined },
): Fasteners {
  const { screw, nut, washer } = design.hardware;
  if (!stack.last) return { pieces: [], findings: [] };
  const height = heightAt(stack.heights, stack.last.index);
  const sheetMm = height.bodyTopMm - height.bodyUndersideMm;
  const washerMm = washer?.thicknessMm ?? 0;
  const washers = washer ? [{ part: bought(washer), zMm: height.bodyTopMm, layer: undefined }] : [];
  const spacer = stack.last.layer.spacer?.kind === 'stock' ? stack.last.layer.spacer.spacer : undefined;
  if (end === 'male') {
    const nutPiece = { part: bought(nut), zMm: height.bodyTopMm + washerMm, layer: undefined };
    const findings = gripFinding(
      `layer[${stack.last.index}].spacer`,
      (spacer?.studMm ?? 0) - sheetMm - washerMm,
      nut.heightMm,
    );
    return { pieces: [...washers, nutPiece], findings };
  }
  // Seen from the front the head is on top, so the piece begins where its shank ends.
  const screwPiece = { part: bought(screw), zMm: height.bodyTopMm + washerMm - screw.lengthMm, layer: undefined };
  return {
    pieces: [...washers, screwPiece],
    findings: engagementFindings(design, screw.lengthMm - sheetMm - washerMm, spacer?.threadDepthMm ?? 0),
  };
}

function jointFinding(below: SpacerEnd | undefined, above: SpacerEnd, layer: number): Finding[] {
  if (below === 'male' && above === 'male') {
    return [
      errorFinding('two-studs-meet', `layer[${layer}].spacer`, {
        value: 'a stud from below and a stud from above',
        allowed: 'meet in one hole, and a stud must go into a thread',
        remedy: 'use a spacer with a female end on one side of this layer',
      }),
    ];
  }
  if (below === 'female' && above === 'female') {
    return [
      errorFinding('nothing-joins', `layer[${layer}].spacer`, {
        value: 'two female ends',
        allowed: 'face each other, and nothing joins them through the sheet between',
        remedy: 'use a male/female spacer on one side of this layer',
      }),
    ];
  }
  return [];
}

function mixedSpacers(): Finding {
  return errorFinding('mixed-spacers', 'layer', {
    value: 'threaded and plain spacers in one stack',
    allowed: 'do not go together: one screw passes through plain or printed spacers, but not through threaded ones',
    remedy: 'make all spacers of the stack threaded, or all plain or printed',
  });
}

function engagementFindings(design: Design, engagedMm: number, depthMm: number): Finding[] {
  const { screw } = design.hardware;
  const diameter = Number(design.hardware.thread.slice(1));
  if (engagedMm > depthMm) {
    return [
      errorFinding('screw-too-long', 'hardware.screw', {
        value: mm(screw.lengthMm),
        allowed: `goes ${mm(engagedMm)} into a thread ${mm(depthMm)} deep`,
        remedy: `use a screw at least ${mm(engagedMm - depthMm)} shorter`,
      }),
    ];
  }
  if (engagedMm >= diameter) return [];
  const text = {
    value: mm(screw.lengthMm),
    allowed: `leaves ${mm(Math.max(0, engagedMm))} in the thread; one diameter (${mm(diameter)}) is the least for brass and steel (common practice)`,
    remedy: `use a screw at least ${mm(diameter - engagedMm)} longer`,
  };
  return [
    engagedMm <= 0
      ? errorFinding('screw-too-short', 'hardware.screw', text)
      : warningFinding('little-thread', 'hardware.screw', text),
  ];
}

function gripFinding(path: string, restMm: number, nutMm: number): Finding[] {
  if (restMm >= nutMm) return [];
  const text = {
    value: `${mm(Math.max(0, restMm))} of stud left`,
    allowed: `does not fill a nut ${mm(nutMm)} high`,
    remedy: 'use a longer stud or a thin nut',
  };
  return [restMm <= 0 ? errorFinding('stud-too-short', path, text) : warningFinding('nut-not-full', path, text)];
}

function screwTooShort(lengthMm: number, needMm: number): Finding {
  return errorFinding('screw-too-short', 'hardware.screw', {
    value: mm(lengthMm),
    allowed: `does not reach through reflector, spacers, sheets and nut, which are ${mm(needMm)} together`,
    remedy: `use a screw of at least ${mm(needMm)}`,
  });
}

function screwLong(lengthMm: number, needMm: number): Finding {
  return warningFinding('screw-long', 'hardware.screw', {
    value: mm(lengthMm),
    allowed: `stands ${mm(lengthMm - needMm)} out in front of the last patch; ${mm(needMm)} would do`,
    remedy: 'use a shorter screw or cut it flush',
  });
}

/** One part for every kind of piece, and one placement for each piece of each element. */
export function fastenerParts(
  pieces: readonly StackPiece[],
  elements: readonly { readonly centre: { readonly x: number; readonly y: number } }[],
): { parts: (BoughtPart | PrintedSpacerPart)[]; placements: Placement[] } {
  const counts = new Map<string, { piece: StackPiece; count: number }>();
  for (const piece of pieces) {
    const known = counts.get(piece.part.id);
    counts.set(piece.part.id, { piece: known?.piece ?? piece, count: (known?.count ?? 0) + elements.length });
  }
  const parts = [...counts.values()].map(({ piece, count }) => ({ ...piece.part, quantity: count }));
  const placements = elements.flatMap(({ centre }, element) =>
    pieces.map(
      (piece): Placement => ({
        part: piece.part.id,
        at: { ...centre, z: piece.zMm },
        turnDeg: 0,
        element,
        layer: piece.layer,
      }),
    ),
  );
  return { parts, placements };
}
