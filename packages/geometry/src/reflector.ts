import type { Design } from '@sheetwave/design';
import type { BoardPart, CopperPiece, Element, HarnessSplit, PlatePart } from './assembly.ts';
import { circleContour, roundedRectangleContour } from './contours.ts';
import { flattenContour } from './flatten.ts';
import { microstripPieces } from './harness-flat.ts';
import { elementTurnDeg } from './lattice.ts';
import { offsetContour } from './offset.ts';
import type { Contour, Hole, Mark, Outline, Point } from './outline.ts';
import { copperPieces, insetPatchContour, MASK_CLEARANCE_MM, maskOpening, patchContour } from './patches.ts';
import { boxHoles } from './reflector/box-holes.ts';
import { type AddedHoles, clampHoles } from './reflector/clamp-holes.ts';
import { flatPattern } from './reflector/flat-pattern.ts';
import { bendMarks, foldedFace } from './reflector/folded.ts';
import { patchMetal } from './shapes/patch-metal.ts';
import { moveContour, turnContour } from './transform.ts';

/** The ground plane stays this far inside a routed board edge (common practice). */
const PLANE_SETBACK_MM = 0.5;
/** Copper ring around a plated hole. */
const RING_MM = 0.2;
/** Play of the pin in its soldering hole. */
const PIN_PLAY_MM = 0.2;

/** Scribed lines follow arcs this closely. */
const SCRIBED_MM = 0.02;

export interface ReflectorInput {
  readonly design: Design;
  readonly elements: readonly Element[];
  readonly splits: readonly HarnessSplit[];
  readonly coaxPoint: Point;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** The reflector in antenna coordinates: a drilled sheet, or the board that carries patches and lines. */
export function reflectorPart(input: ReflectorInput): PlatePart | BoardPart {
  const { design, widthMm, heightMm } = input;
  const { material, process, cornerRadiusMm } = design.reflector;
  const face = foldedFace(design, { widthMm, heightMm });
  const outer = face.fold
    ? flatPattern(face)
    : roundedRectangleContour({ centre: { x: 0, y: 0 }, widthMm, heightMm, radiusMm: cornerRadiusMm });
  const base = { id: 'reflector', name: 'reflector', quantity: 1, role: 'reflector', process } as const;
  const outline: Outline = { outer, cutouts: [], holes: reflectorHoles(input) };
  if (material.kind === 'sheet') {
    return {
      ...base,
      form: 'plate',
      sheet: material.sheet,
      keepsGrain: design.reflector.grain,
      outline,
      marks: [...reflectorMarks(input), ...bendMarks(face)],
    };
  }
  const copper = reflectorCopper(input, outline);
  const bare = (pieces: readonly CopperPiece[]): Contour[] =>
    pieces
      .filter((piece) => piece.purpose !== 'plane' && piece.polarity === 'dark')
      .map((piece) => maskOpening(piece.contour, MASK_CLEARANCE_MM));
  return {
    ...base,
    form: 'board',
    laminate: material.laminate,
    outline,
    copper,
    maskOpenings: { top: bare(copper.top), bottom: groundOpenings(input) },
    marks: [],
  };
}

function reflectorHoles(input: ReflectorInput): Hole[] {
  return [...mountingHoles(input), ...fixingHoles(input), ...coaxHoles(input), ...addedHoles(input).holes];
}

/** Holes that seek their own place on the face: for the pole clamp and the box. The findings say what finds none. */
export function addedHoles(input: ReflectorInput): AddedHoles {
  const clamp = clampHoles(input);
  const box = boxHoles(input, clamp.holes);
  return { holes: [...clamp.holes, ...box.holes], findings: [...clamp.findings, ...box.findings] };
}

function mountingHoles({ design, widthMm, heightMm }: ReflectorInput): Hole[] {
  const { mounting } = design.reflector;
  if (!mounting) return [];
  const x = widthMm / 2 - mounting.insetMm;
  const y = heightMm / 2 - mounting.insetMm;
  const corners: Point[] = [
    { x: -x, y: -y },
    { x, y: -y },
    { x, y },
    { x: -x, y },
  ];
  return corners.map((centre) => ({ purpose: 'mounting', centre, diameterMm: mounting.diameterMm, plated: false }));
}

function fixingHoles({ design, elements }: ReflectorInput): Hole[] {
  const first = design.layers.find((layer) => layer.spacer !== undefined);
  const diameterMm = first?.fixingHoleMm;
  if (!first || diameterMm === undefined) return [];
  return elements.map(({ centre }) => ({ purpose: 'fixing', centre, diameterMm, plated: false }));
}

function coaxHoles(input: ReflectorInput): Hole[] {
  const { design, coaxPoint } = input;
  const { coax, reflector } = design;
  if (reflector.material.kind === 'sheet') {
    const body: Hole = { purpose: 'coax', centre: coaxPoint, diameterMm: coax.throughHoleMm, plated: false };
    return [body, ...flangeHoles(input)];
  }
  const onBoard = coax.connector?.mount === 'board' ? coax.connector : undefined;
  const pin: Hole = {
    purpose: onBoard ? 'connector-pin' : 'coax',
    centre: coaxPoint,
    diameterMm: onBoard ? onBoard.pinHoleMm : coax.coax.pinMm + PIN_PLAY_MM,
    plated: onBoard !== undefined,
  };
  const posts = (onBoard?.posts ?? []).map(
    ([x, y, diameterMm]): Hole => ({
      purpose: 'connector-post',
      centre: { x: coaxPoint.x + x, y: coaxPoint.y + y },
      diameterMm,
      plated: true,
    }),
  );
  return [pin, ...posts, ...flangeHoles(input)];
}

/** Clearance holes for the screws of a panel connector's flange. */
function flangeHoles({ design, coaxPoint }: ReflectorInput): Hole[] {
  return (design.coax.connector?.panel?.holes ?? []).map(([x, y, diameterMm]) => ({
    purpose: 'connector-flange',
    centre: { x: coaxPoint.x + x, y: coaxPoint.y + y },
    diameterMm,
    plated: false,
  }));
}

function reflectorCopper(input: ReflectorInput, outline: Outline): BoardPart['copper'] {
  const { design, elements, splits, coaxPoint } = input;
  if (design.reflector.material.kind !== 'board') throw new Error('not a board');
  const pin = outline.holes.find((hole) => hole.purpose === 'connector-pin' || hole.purpose === 'coax');
  const posts = outline.holes.filter((hole) => hole.purpose === 'connector-post');
  const land = (centre: Point, diameterMm: number): CopperPiece => ({
    purpose: 'land',
    polarity: 'dark',
    contour: circleContour(centre, diameterMm / 2),
  });
  const top = [
    ...etchedPatches(design, elements),
    ...microstripPieces(splits, design.reflector.material.laminate.thicknessMm),
    land(coaxPoint, (pin?.diameterMm ?? 0) + 4 * RING_MM),
    ...posts.map((post) => land(post.centre, post.diameterMm + 2 * RING_MM)),
  ];
  const plane: CopperPiece = {
    purpose: 'plane',
    polarity: 'dark',
    contour: offsetContour(outline.outer, -PLANE_SETBACK_MM),
  };
  const clearance: CopperPiece = {
    purpose: 'clearance',
    polarity: 'clear',
    contour: circleContour(coaxPoint, design.coax.throughHoleMm / 2),
  };
  return { top, bottom: [plane, clearance] };
}

function etchedPatches(design: Design, elements: readonly Element[]): CopperPiece[] {
  const [driven] = design.layers;
  if (driven?.build.kind !== 'on-reflector-board') return [];
  const own =
    design.feed.kind === 'inset'
      ? { outer: insetPatchContour(driven.shape, { ...design.feed, lineMm: lineAtPatchMm(design) }), cutouts: [] }
      : patchMetal(driven.shape);
  const turnDeg = elementTurnDeg(design.lattice.orientation);
  const pieces = copperPieces(own).map((piece) => ({ ...piece, contour: turnContour(piece.contour, turnDeg) }));
  return elements.flatMap(({ centre }) =>
    pieces.map((piece) => ({ ...piece, contour: moveContour(piece.contour, centre) })),
  );
}

/** Width of the microstrip line where it enters a patch. */
function lineAtPatchMm({ harness }: Design): number {
  if (harness.kind !== 'microstrip') throw new Error('an inset feed needs a microstrip line');
  const outermost = harness.levels.at(-1);
  if (outermost) return outermost.section?.at === 'outer' ? outermost.section.widthMm : outermost.widthMm;
  if (!harness.lead) throw new Error('a microstrip harness has levels or a lead');
  return harness.lead.widthMm;
}

/** Bare copper on the back where the connector, or the jacket of the coax, is soldered to the plane. */
function groundOpenings({ design, coaxPoint }: ReflectorInput): Contour[] {
  const reach = (design.coax.connector?.posts ?? []).reduce(
    (most, [x, y, hole]) => Math.max(most, Math.hypot(x, y) + hole / 2 + 1),
    0,
  );
  return [circleContour(coaxPoint, Math.max(design.coax.solderLandMm / 2, reach))];
}

/** What to scribe on the sheet: where the patches sit, where the harness runs, and the land to tin for the coax. */
function reflectorMarks({ design, elements, splits, coaxPoint }: ReflectorInput): Mark[] {
  const [driven] = design.layers;
  if (!driven) throw new Error('a design has at least one layer');
  const turned = turnContour(patchContour(driven.shape), elementTurnDeg(design.lattice.orientation));
  const patches = elements.flatMap(({ centre }) => scribed(moveContour(turned, centre)));
  const runs = splits
    .flatMap((split) => split.arms.flat())
    .map((run): Mark => ({ kind: 'line', purpose: 'harness', from: run.from, to: run.to }));
  // A panel connector is screwed on: nothing is to be tinned.
  const land: Mark[] = design.coax.connector?.panel
    ? []
    : [{ kind: 'circle', purpose: 'solder-land', centre: coaxPoint, diameterMm: design.coax.solderLandMm }];
  return [...patches, ...runs, ...land];
}

function scribed(contour: Contour): Mark[] {
  if (contour.kind === 'circle')
    return [{ kind: 'circle', purpose: 'patch', centre: contour.centre, diameterMm: 2 * contour.radiusMm }];
  const corners = flattenContour(contour, { toleranceMm: SCRIBED_MM });
  return corners.map(
    (from, i): Mark => ({ kind: 'line', purpose: 'patch', from, to: corners[(i + 1) % corners.length] ?? from }),
  );
}
