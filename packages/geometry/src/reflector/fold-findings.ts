import type { Design, Finding, Fold, Side } from '@sheetwave/design';
import { errorFinding, mm, warningFinding } from '../finding.ts';
import type { Hole } from '../outline.ts';
import { type FoldedFace, foldSizes } from './flat-pattern.ts';
import { foldedFace } from './folded.ts';

type Size = { readonly widthMm: number; readonly heightMm: number };

/** Folded edges that cannot be made at all: no flat part beside the bend, or a face narrower than its bends. */
export function foldErrors(design: Design, size: Size): Finding[] {
  const face = foldedFace(design, size);
  if (!face.fold) return [];
  const { flatMm, setbackMm } = foldSizes(face.fold, face.thicknessMm);
  const findings = [
    ...(flatMm > face.reliefMm ? [] : [tooLow(face, setbackMm + face.reliefMm)]),
    ...(Math.min(size.widthMm, size.heightMm) > 4 * (setbackMm + face.reliefMm) ? [] : [faceTooSmall(size)]),
  ];
  return findings.map((finding) => ({ ...finding, parts: ['reflector'] }));
}

/** What makes a fold hard to bend, and holes that a bend would pull out of round. */
export function foldFindings(design: Design, size: Size, holes: readonly Hole[]): Finding[] {
  const face = foldedFace(design, size);
  if (!face.fold) return [];
  return [...lowFinding(face, face.fold), ...holeFindings(face, face.fold, holes)];
}

/** Least height of a folded edge for common tools: 4 t + R (shop rule, memory). */
function lowFinding(face: FoldedFace, fold: Fold): Finding[] {
  const least = 4 * face.thicknessMm + fold.insideRadiusMm;
  if (fold.heightMm >= least - 1e-9) return [];
  return [
    {
      ...warningFinding('fold-low', 'reflector.fold.height', {
        value: mm(fold.heightMm),
        allowed: `is less than a folder holds well, which is four thicknesses and the radius: ${mm(least)} (shop rule)`,
        remedy: 'fold a higher edge, or ask the shop',
      }),
      parts: ['reflector'],
    },
  ];
}

function holeFindings(face: FoldedFace, fold: Fold, holes: readonly Hole[]): Finding[] {
  const { setbackMm } = foldSizes(fold, face.thicknessMm);
  const keep = 2 * face.thicknessMm + fold.insideRadiusMm;
  const near = fold.sides.flatMap((side) =>
    holes.map((hole) => ({ side, hole, webMm: insideMm(face, hole, side) - setbackMm })),
  );
  const [worst] = near.filter(({ webMm }) => webMm < keep - 1e-9).sort((a, b) => a.webMm - b.webMm);
  if (worst === undefined) return [];
  const { hole, side, webMm } = worst;
  const text = {
    value: `a ${hole.purpose} hole of ${mm(hole.diameterMm)}`,
    allowed:
      webMm <= 0
        ? `reaches ${mm(-webMm)} into the bend along the ${side} edge, and would be torn`
        : `is ${mm(webMm)} from the bend along the ${side} edge; nearer than two thicknesses and the radius (${mm(keep)}, shop rule) it comes out oval`,
    remedy: `move it ${mm(keep - webMm)} inward, or drill it after bending`,
  };
  const finding =
    webMm <= 0
      ? errorFinding('hole-in-bend', 'reflector.fold', text)
      : warningFinding('hole-near-bend', 'reflector.fold', text);
  return [{ ...finding, at: { ...hole.centre, z: 0 }, parts: ['reflector'] }];
}

/** From the edge of the face inward to the nearest point of the hole. */
function insideMm({ widthMm, heightMm }: FoldedFace, { centre, diameterMm }: Hole, side: Side): number {
  const toCentre = {
    left: centre.x + widthMm / 2,
    right: widthMm / 2 - centre.x,
    bottom: centre.y + heightMm / 2,
    top: heightMm / 2 - centre.y,
  }[side];
  return toCentre - diameterMm / 2;
}

function tooLow(face: FoldedFace, leastMm: number): Finding {
  return errorFinding('fold-too-low', 'reflector.fold.height', {
    value: mm(face.fold?.heightMm ?? 0),
    allowed: `leaves no flat edge beside its bend of inside radius ${mm(face.fold?.insideRadiusMm ?? 0)} in ${mm(face.thicknessMm)} sheet`,
    remedy: `give more than ${mm(leastMm)}, or a smaller radius`,
  });
}

function faceTooSmall({ widthMm, heightMm }: Size): Finding {
  return errorFinding('face-too-small', 'reflector.size', {
    value: `${mm(widthMm)} x ${mm(heightMm)}`,
    allowed: 'is hardly more than the bends along its edges take',
    remedy: 'enlarge the reflector, or fold with a smaller radius',
  });
}
