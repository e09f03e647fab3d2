import type { Finding } from '@sheetwave/design';
import type { Pen } from '@sheetwave/drawings';
import { grow, union, wholeMillimetres } from '@sheetwave/drawings';
import type { Assembly, Bounds, Point, Point3 } from '@sheetwave/geometry';
import { depthOf, drawPrism, onPage, type Prism, type Stage } from './axonometry.ts';
import { calloutsBox, drawCallouts, type PlacedCallout, placeCallouts } from './callouts.ts';
import { columnKey, type Lifted } from './explode.ts';
import { calloutsOf } from './exploded-callouts.ts';
import { DRAWN_WIDTH, type Scene, sceneOf } from './exploded-scene.ts';
import { drawMarkers, markersOf, withMarkers } from './finding-markers.ts';
import { INK, PAPER, SOFT, TONES } from './palette.ts';
import type { Picture } from './picture.ts';
import { drawPictureTitle, type PictureTitle, pictureTitleBox } from './picture-title.ts';
import { drawStrokedRod } from './rod-stroke.ts';

const EDGE = 0.2;
/** Holes that no piece of the antenna goes through. */
const OFF_AXIS: ReadonlySet<string> = new Set(['mounting', 'clamp', 'drain', 'gland', 'connector-flange']);

/**
 * Every part pulled apart along its axis, with names, sizes and numbers. Findings that have a place are
 * numbered there, with their sentences in a list below.
 */
export function antennaExploded(
  assembly: Assembly,
  findings: readonly Finding[] = [],
  drawnWidthMm = DRAWN_WIDTH,
): Picture {
  const scene = sceneOf(assembly, drawnWidthMm);
  const callouts = placeCallouts(calloutsOf(scene), scene.extent.maxX + 14);
  const list = markersOf(scene, findings, drawnBox(scene, callouts));
  const page = wholeMillimetres(grow(withMarkers(drawnBox(scene, callouts), list), 8));
  return {
    page,
    title: `${assembly.design.name}: exploded view`,
    about: `Revision ${assembly.design.revision}. Parts pulled apart along their axes; not a template.`,
    draw: (pen) => {
      drawScene(pen, scene, { page, callouts });
      if (list !== undefined) drawMarkers(pen, list);
    },
  };
}

function titleOf({ assembly, whole, extent }: Scene): PictureTitle {
  const { design, elements } = assembly;
  const subject = whole ? 'exploded view' : `exploded view of one of ${elements.length} stacks`;
  return {
    at: { x: extent.minX, y: extent.maxY + 16 },
    name: design.name,
    words: `${subject}, revision ${design.revision}`,
  };
}

/** The box of title, picture and callouts. */
function drawnBox(scene: Scene, callouts: readonly PlacedCallout[]): Bounds {
  const title = pictureTitleBox(titleOf(scene));
  return [title, calloutsBox(callouts) ?? title].reduce(union, scene.extent);
}

function drawScene(
  pen: Pen,
  scene: Scene,
  { page, callouts }: { readonly page: Bounds; readonly callouts: readonly PlacedCallout[] },
): void {
  pen.box(page, { fill: PAPER, stroke: 'none', id: 'paper' });
  drawPictureTitle(pen, titleOf(scene));
  drawTiers(pen, scene);
  drawCallouts(pen, callouts);
}

/** Lower tiers first, and far pieces before near ones: what is nearer the eye covers what is behind it. */
function drawTiers(pen: Pen, scene: Scene): void {
  const ends = new Map<string, Point3>();
  const names = [...new Set(scene.lifted.map((one) => one.tier + (one.shown.piece.placement.layer ?? '')))];
  for (const name of names) {
    const tier = scene.lifted.filter((one) => one.tier + (one.shown.piece.placement.layer ?? '') === name);
    const ordered = [...tier].sort(
      (a, b) =>
        depthOf(b.shown.centre) - depthOf(a.shown.centre) || a.shown.fromMm + a.liftMm - (b.shown.fromMm + b.liftMm),
    );
    const group = pen.group(`tier-${name}`, { stroke: INK, width: EDGE, join: 'round', cap: 'round' });
    const axes = group.group(`axes-${name}`, { stroke: SOFT, width: 0.18, dash: [2.4, 0.8, 0.5, 0.8], fill: 'none' });
    for (const one of ordered) {
      drawAxes(axes, scene, { one, ends });
    }
    for (const one of ordered) drawLifted(group, scene, one);
  }
}

/** The line a piece moved along: from the top of the piece before it on the same axis to its own underside. */
function drawAxes(pen: Pen, scene: Scene, what: { readonly one: Lifted; readonly ends: Map<string, Point3> }): void {
  const { one, ends } = what;
  for (const axis of axesOf(one)) {
    const key = columnKey(axis);
    const before = ends.get(key);
    const [from, to] = [one.shown.fromMm + one.liftMm, one.shown.toMm + one.liftMm];
    const stage = { scale: scene.scale };
    if (before !== undefined && before.z < from) pen.line(onPage(stage, before), onPage(stage, { ...axis, z: from }));
    ends.set(key, { ...axis, z: to });
  }
}

/** Axes a piece belongs to: its own, and for sheets that of every hole in them. */
function axesOf({ shown }: Lifted): readonly Point[] {
  const { part, placement } = shown.piece;
  if (part.form === 'rod' || part.form === 'tube') return [];
  if (part.form !== 'plate' && part.form !== 'board') return [{ x: placement.at.x, y: placement.at.y }];
  const turn = (placement.turnDeg * Math.PI) / 180;
  return part.outline.holes
    .filter((hole) => !OFF_AXIS.has(hole.purpose))
    .map(({ centre }) => ({
      x: placement.at.x + centre.x * Math.cos(turn) - centre.y * Math.sin(turn),
      y: placement.at.y + centre.x * Math.sin(turn) + centre.y * Math.cos(turn),
    }));
}

function drawLifted(pen: Pen, scene: Scene, { shown, liftMm }: Lifted): void {
  const stage: Stage = { pen, scale: scene.scale };
  for (const prism of shown.solid?.prisms ?? []) drawPrism(stage, raised(prism, liftMm));
  const top = shown.toMm + liftMm;
  for (const { ring, dark } of shown.copper) {
    const points = ring.map((point) => onPage(stage, { ...point, z: top }));
    pen.polygon(points, { fill: dark ? TONES.copper.light : TONES.laminate.light, stroke: 'none' });
  }
  if (shown.copper.length > 0) redrawHoles(stage, shown.solid?.prisms ?? [], top);
  for (const bar of shown.bars) {
    const points = bar.points.map((point) => onPage(stage, { ...point, z: point.z + liftMm }));
    drawStrokedRod(pen, points, { widthMm: bar.diameterMm * scene.scale, tones: bar.tones });
  }
}

const raised = (prism: Prism, by: number): Prism => ({ ...prism, from: prism.from + by, to: prism.to + by });

function redrawHoles(stage: Stage, prisms: readonly Prism[], top: number): void {
  for (const hole of prisms.flatMap((prism) => prism.holes))
    stage.pen.polygon(
      hole.map((point) => onPage(stage, { ...point, z: top })),
      { fill: TONES.laminate.dark },
    );
}
