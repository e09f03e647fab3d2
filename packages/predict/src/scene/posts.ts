import type { Material, Nut, Screw, Spacer } from '@sheetwave/design';
import type { Sheet, Solid } from '@sheetwave/field';
import type { Assembly, Placement, Point, PrintedSpacerPart } from '@sheetwave/geometry';
import { roundOfHexagon, squareOfRound } from './equivalent-radius.ts';
import { metres, planePoint } from './lengths.ts';
import { type SceneLevel, seatMm } from './levels.ts';
import { square } from './outlines.ts';
import { type Plastic, PRINTED, plasticOf } from './plastics.ts';
import type { ScenePart } from './scene-parts.ts';

/** Posts stand where the field of a plain patch is weak: half the cells that an edge would get are enough for them. */
const RESOLUTION = 0.5;

interface Post {
  readonly name: string;
  readonly centre: Point;
  readonly fromMm: number;
  readonly toMm: number;
  /** Of the round post. */
  readonly diameterMm: number;
}

/**
 * Spacers, screws and nuts above the reflector, where they stand: of metal as square rods of the same capacitance, of plastic
 * as dielectric. Studs and threads inside them, washers, and what lies behind the reflector are left out.
 */
export function postParts(assembly: Assembly, levels: readonly SceneLevel[]): ScenePart[] {
  return assembly.placements.flatMap((placement): ScenePart[] => {
    if (placement.element === undefined) return [];
    const part = assembly.parts.find(({ id }) => id === placement.part);
    if (part?.form === 'printed-spacer') return spacerPart(assembly, levels, placement, part);
    if (part?.form !== 'bought') return [];
    const { item } = part;
    if (item.kind === 'spacer') return spacerPart(assembly, levels, placement, item);
    if (item.kind === 'screw') return screwParts(levels, placement, item);
    return item.kind === 'nut' ? nutParts(levels, placement, item) : [];
  });
}

function spacerPart(
  assembly: Assembly,
  levels: readonly SceneLevel[],
  placement: Placement,
  item: Spacer | PrintedSpacerPart,
): ScenePart[] {
  const layer = placement.layer ?? -1;
  const level = levels[layer];
  if (!level) return [];
  const printed = 'form' in item;
  const post: Post = {
    name: item.id,
    centre: placement.at,
    fromMm: seatMm(assembly, levels, layer),
    toMm: level.bodyMm,
    diameterMm: printed ? item.outerMm : item.section === 'hexagon' ? roundOfHexagon(item.acrossMm) : item.acrossMm,
  };
  const path = `layer[${layer}].spacer`;
  if (!printed && item.material.conductivitySm > 0) return [metalPost(path, post, item.material)];
  return [plasticPost(path, post, printed ? PRINTED : plasticOf(item.material.name))];
}

/** A through screw stands on the reflector and ends in its nut; a screw from in front has its head on the last layer. */
function screwParts(levels: readonly SceneLevel[], placement: Placement, screw: Screw): ScenePart[] {
  const top = levels.at(-1)?.bodyTopMm ?? 0;
  const tipMm = placement.at.z + screw.headHeightMm + screw.lengthMm;
  const fromBehind = placement.at.z + screw.headHeightMm <= 0;
  const shape = { name: screw.id, centre: placement.at };
  if (!fromBehind) {
    const head = { ...shape, fromMm: top, toMm: top + screw.headHeightMm, diameterMm: screw.headDiameterMm };
    return screw.head === 'countersunk' ? [] : [hardwarePost(head, screw.material)];
  }
  // A short screw ends inside its spacer.
  if (tipMm < top) return [];
  return [hardwarePost({ ...shape, fromMm: 0, toMm: top, diameterMm: threadMm(screw.thread) }, screw.material)];
}

const threadMm = (thread: string): number => Number(thread.slice(1));

function nutParts(levels: readonly SceneLevel[], placement: Placement, nut: Nut): ScenePart[] {
  if (placement.at.z < 0) return [];
  const top = levels.at(-1)?.bodyTopMm ?? 0;
  const post = { name: nut.id, centre: placement.at, fromMm: top, toMm: top + nut.heightMm };
  return [hardwarePost({ ...post, diameterMm: roundOfHexagon(nut.acrossMm) }, nut.material)];
}

function hardwarePost(post: Post, material: Material): ScenePart {
  return material.conductivitySm > 0
    ? metalPost('hardware', post, material)
    : plasticPost('hardware', post, plasticOf(material.name));
}

function metalPost(path: string, { name, centre, fromMm, toMm, diameterMm }: Post, material: Material): ScenePart {
  const sheet: Sheet = {
    name,
    normal: 'z',
    at: metres(fromMm),
    thickness: metres(toMm) - metres(fromMm),
    outline: square(centre, squareOfRound(diameterMm)),
    conductivity: material.conductivitySm,
    resolution: RESOLUTION,
  };
  return { path, sheets: [sheet] };
}

function plasticPost(path: string, { name, centre, fromMm, toMm, diameterMm }: Post, plastic: Plastic): ScenePart {
  const solid: Solid = {
    name,
    shape: {
      kind: 'cylinder',
      axis: 'z',
      centre: planePoint(centre),
      radius: metres(diameterMm / 2),
      from: metres(fromMm),
      to: metres(toMm),
    },
    ...plastic,
    resolution: RESOLUTION,
  };
  return { path, solids: [solid] };
}
