import type { Design } from '@sheetwave/design';
import type { BoughtPart, Placement } from './assembly.ts';
import { PROBE_PROTRUSION_MM } from './harness-rod.ts';
import type { Point } from './outline.ts';
import { reflectorUndersideMm } from './stack-heights.ts';

/** How far the coax pin rises above the reflector's front face, mm: to the harness, or through the driven patch. */
export function coaxPinRiseMm(design: Design, drivenTopMm: number): number {
  const { harness } = design;
  switch (harness.kind) {
    case 'none':
    case 'microstrip':
      return drivenTopMm + PROBE_PROTRUSION_MM;
    case 'rod':
      return harness.heightMm;
    case 'strip':
      return harness.heightMm + harness.sheet.thicknessMm + PROBE_PROTRUSION_MM;
  }
}

/** The cable (cut to length, with the bared pin) and its connector. */
export function coaxParts(
  design: Design,
  coaxPoint: Point,
  drivenTopMm: number,
): { parts: BoughtPart[]; placements: Placement[] } {
  const { coax, connector, lengthMm } = design.coax;
  const parts: BoughtPart[] = [];
  const z = reflectorUndersideMm(design);
  if (connector === undefined || connector.mount === 'cable') {
    const bared = coaxPinRiseMm(design, drivenTopMm) - z;
    parts.push({ id: coax.id, name: coax.label, quantity: 1, form: 'bought', item: coax, lengthMm: lengthMm + bared });
  }
  if (connector)
    parts.push({
      id: connector.id,
      name: connector.label,
      quantity: 1,
      form: 'bought',
      item: connector,
      lengthMm: undefined,
    });
  const placements = parts.map(
    (part): Placement => ({ part: part.id, at: { ...coaxPoint, z }, turnDeg: 0, element: undefined, layer: undefined }),
  );
  return { parts, placements };
}
