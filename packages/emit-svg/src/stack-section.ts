import {
  type Assembly,
  type Bounds,
  type Contour,
  coaxPinRiseMm,
  type EmittedFile,
  type Point,
  type Point3,
  placePoint,
  reflectorUndersideMm,
  shapeExtent,
} from '@sheetwave/geometry';
import { arrowHead } from './arrow.ts';
import type { Prism } from './axonometry.ts';
import { grow, union } from './box.ts';
import { type Callout, calloutsBox, drawCallouts, type PlacedCallout, placeCallouts } from './callouts.ts';
import { type Canvas, fileOf, openCanvas, type Pen } from './canvas.ts';
import { boughtSolid, disc, solid } from './hardware-solids.ts';
import { plain } from './number.ts';
import { drawOrdinates, type OrdinateRow, ordinateBox, ordinateRow } from './ordinates.ts';
import { INK, PAPER, SOFT, TONES, tonesOf } from './palette.ts';
import { thicknessOf } from './part-words.ts';
import { drawStrokedRod } from './rod-stroke.ts';
import { cutStretches, inPlane, lengthDirection, type SectionPlane, type Stretch } from './section-plane.ts';
import { textBox } from './text-size.ts';
import { isBehind, type Piece, piecesOf } from './tiers.ts';

const DRAWN_WIDTH = 130;
const LARGEST_SCALE = 5;
const EDGE = 0.18;
/** Cable drawn behind the reflector, mm. */
const STUMP_MM = 6;

/** A cut through one stack along its resonant length, to scale, with its heights: `pictures/stack-section.svg`. */
export function stackSection(assembly: Assembly): EmittedFile {
  const section = sectionOf(assembly);
  const canvas = openCanvas({
    page: pageOf(section),
    title: `${assembly.design.name}: section of one stack`,
    about: `Revision ${assembly.design.revision}. Cut along the resonant length; heights in mm above the reflector's front.`,
  });
  draw(canvas, section);
  return fileOf(canvas, { path: 'pictures/stack-section.svg', kind: 'picture-svg', part: undefined });
}

/** One cut and where its origin lies on the page. */
interface Panel {
  readonly plane: SectionPlane;
  readonly shift: number;
  readonly pieces: readonly Piece[];
}

interface Section {
  readonly assembly: Assembly;
  readonly scale: number;
  readonly stack: Panel;
  /** The coax entry, when the cut through the stack misses it. */
  readonly entry: Panel | undefined;
  readonly heights: OrdinateRow;
  readonly callouts: readonly PlacedCallout[];
  readonly extent: Bounds;
}

function sectionOf(assembly: Assembly): Section {
  const index = nearestElement(assembly);
  const plane = stackPlane(assembly, index);
  const pieces = piecesOf(assembly);
  const own = pieces.filter(({ placement }) => placement.element === undefined || placement.element === index);
  const entryPlane = hasCoax(assembly, plane) ? undefined : coaxPlane(assembly, plane);
  const entryWidth = entryPlane === undefined ? 0 : entryPlane.left + entryPlane.right + 4;
  const scale = Math.min(LARGEST_SCALE, DRAWN_WIDTH / (plane.left + plane.right + entryWidth));
  const entry = entryPlane && {
    plane: entryPlane,
    shift: -(plane.left + 4 + entryPlane.right) * scale,
    pieces: pieces.filter(({ placement }) => placement.element === undefined),
  };
  const stack = { plane, shift: 0, pieces: own };
  const left = entry === undefined ? -plane.left * scale : entry.shift - entry.plane.left * scale;
  const heights = ordinateRow({
    axis: 'y',
    places: levelsOf(assembly).map((z) => z * scale),
    datum: 0,
    edge: left,
    sizeMm: 2.8,
    scale,
    words: (valueMm) => heightWords(assembly, valueMm),
  });
  const right = plane.right * scale;
  const callouts = placeCallouts(calloutsOf(assembly, { plane, scale }), right + 14);
  const top = Math.max(...assembly.layerHeights.map((height) => height.bodyTopMm)) + 4;
  const low = (reflectorUndersideMm(assembly.design) - STUMP_MM) * scale;
  const extent = { minX: left, maxX: right, minY: low, maxY: top * scale };
  return { assembly, scale, stack, entry, heights, callouts, extent };
}

function nearestElement(assembly: Assembly): number {
  const distances = assembly.elements.map(({ centre }) =>
    Math.hypot(centre.x - assembly.coaxPoint.x, centre.y - assembly.coaxPoint.y),
  );
  return distances.indexOf(Math.min(...distances));
}

function stackPlane(assembly: Assembly, index: number): SectionPlane {
  const element = assembly.elements[index];
  if (element === undefined) throw new Error('an antenna has at least one element');
  const { orientation } = assembly.design.lattice;
  const along = lengthDirection(orientation === 'vertical' ? 0 : -90);
  const lengths = assembly.design.layers.map(({ shape }) => {
    const extent = shapeExtent(shape, 'vertical');
    return extent.heightMm;
  });
  const half = Math.max(...lengths) * 0.5 * 1.3 + 3;
  const plane = { origin: element.centre, along, left: half, right: half };
  const coax = inPlane(plane, assembly.coaxPoint);
  const near = Math.abs(coax.off) < 1e-3 && Math.abs(coax.s) < 2 * half;
  if (!near) return plane;
  return { ...plane, left: Math.max(half, 6 - coax.s), right: Math.max(half, coax.s + 6) };
}

function hasCoax(assembly: Assembly, plane: SectionPlane): boolean {
  const { s, off } = inPlane(plane, assembly.coaxPoint);
  return Math.abs(off) < 1e-3 && s > -plane.left && s < plane.right;
}

const coaxPlane = (assembly: Assembly, like: SectionPlane): SectionPlane => ({
  origin: assembly.coaxPoint,
  along: like.along,
  left: 7,
  right: 7,
});

function levelsOf(assembly: Assembly): readonly number[] {
  const { harness } = assembly.design;
  const line = harness.kind === 'rod' || harness.kind === 'strip' ? [harness.heightMm] : [];
  const layers = assembly.layerHeights.flatMap((height) => [height.undersideMm, height.topMm]);
  return [reflectorUndersideMm(assembly.design), 0, ...line, ...layers];
}

/** The line of the harness is named, because no sheet shows what its height belongs to. */
function heightWords(assembly: Assembly, valueMm: number): string {
  const { harness } = assembly.design;
  const number = plain(valueMm, 3);
  if (!('heightMm' in harness) || Math.abs(harness.heightMm - valueMm) > 0.002) return number;
  return harness.kind === 'rod' ? `rod axis ${number}` : `strip ${number}`;
}

const titleAt = (section: Section): Point => ({
  x: ordinateBox(section.heights).minX,
  y: section.extent.maxY + 16,
});

function pageOf(section: Section): Bounds {
  const title = textBox(section.assembly.design.name, titleAt(section), { sizeMm: 6, bold: true });
  const words = textBox(subtitle(section), titleAt(section), { sizeMm: 2.8 });
  const column = calloutsBox(section.callouts) ?? title;
  const captions = { ...section.extent, minY: section.extent.minY - 7 };
  const box = grow([title, words, column, ordinateBox(section.heights)].reduce(union, captions), 8);
  return {
    minX: Math.floor(box.minX),
    minY: Math.floor(box.minY),
    maxX: Math.ceil(box.maxX),
    maxY: Math.ceil(box.maxY),
  };
}

const subtitle = (section: Section): string =>
  `section of one stack along the resonant length, revision ${section.assembly.design.revision}; heights in mm above the reflector’s front`;

function draw(canvas: Canvas, section: Section): void {
  const { design } = section.assembly;
  canvas.box(pageOf(section), { fill: PAPER, stroke: 'none', id: 'paper' });
  const at = titleAt(section);
  canvas.text(at, design.name, { sizeMm: 6, bold: true, colour: INK });
  canvas.text({ x: at.x, y: at.y - 5 }, subtitle(section), { sizeMm: 2.8, colour: '#5d564c' });
  drawLevels(canvas, section);
  drawPanel(canvas.group('stack', { stroke: INK, width: EDGE, join: 'round' }), section, section.stack);
  if (section.entry !== undefined)
    drawPanel(canvas.group('coax-entry', { stroke: INK, width: EDGE, join: 'round' }), section, section.entry);
  drawGaps(canvas, section);
  drawCaptions(canvas, section);
  drawOrdinates(canvas.group('heights', { stroke: SOFT, width: 0.15, fill: 'none' }), section.heights);
  drawCallouts(canvas, section.callouts);
}

const CAPTION = { sizeMm: 2.8, anchor: 'middle', colour: '#5d564c' } as const;

function drawCaptions(pen: Pen, section: Section): void {
  const y = section.extent.minY - 5;
  const middle = ({ plane, shift }: Panel): number => shift + ((plane.right - plane.left) / 2) * section.scale;
  if (section.entry !== undefined) pen.text({ x: middle(section.entry), y }, 'at the coax', CAPTION);
  pen.text({ x: middle(section.stack), y }, 'through a stack', CAPTION);
}

/** Fine lines across the drawing carry the heights from the left to the sheets they belong to. */
function drawLevels(pen: Pen, section: Section): void {
  const { scale, extent } = section;
  const lines = levelsOf(section.assembly).map(
    (z) =>
      [
        { x: extent.minX, y: z * scale },
        { x: extent.maxX, y: z * scale },
      ] as const,
  );
  pen.lines(lines, { id: 'levels', stroke: '#d8d2c6', width: 0.1, fill: 'none' });
}

function drawPanel(pen: Pen, section: Section, panel: Panel): void {
  const flats = panel.pieces.filter(({ part }) => part.form === 'plate' || part.form === 'board');
  for (const piece of flats) drawCutSheet(pen, section, { panel, piece });
  for (const piece of panel.pieces) drawCutBar(pen, section, { panel, piece });
  const bodies = panel.pieces.flatMap((piece) => bodiesOf(section.assembly, panel, piece));
  // Slim bodies first: a stud or a shank vanishes in the spacer that it is screwed into.
  for (const prism of [...bodies].sort((a, b) => widthAlong(panel, a) - widthAlong(panel, b)))
    drawBody(pen, section, { panel, prism });
  if (hasCoax(section.assembly, panel.plane)) drawCoax(pen, section, panel);
}

function pagePoint(section: Section, panel: Panel, at: { readonly s: number; readonly z: number }): Point {
  return { x: panel.shift + at.s * section.scale, y: at.z * section.scale };
}

function block(
  section: Section,
  panel: Panel,
  size: { readonly s: Stretch; readonly z: readonly [number, number] },
): Bounds {
  const low = pagePoint(section, panel, { s: size.s[0], z: size.z[0] });
  const high = pagePoint(section, panel, { s: size.s[1], z: size.z[1] });
  return { minX: low.x, minY: low.y, maxX: high.x, maxY: high.y };
}

interface InPanel {
  readonly panel: Panel;
  readonly piece: Piece;
}

function drawCutSheet(pen: Pen, section: Section, { panel, piece }: InPanel): void {
  const { part, placement } = piece;
  if (part.form !== 'plate' && part.form !== 'board') return;
  const holes = part.outline.holes.map(
    (hole): Contour => ({ kind: 'circle', centre: hole.centre, radiusMm: hole.diameterMm / 2 }),
  );
  const solidWhere = cutStretches(panel.plane, [part.outline.outer, ...part.outline.cutouts, ...holes], placement);
  const tones = part.form === 'plate' ? tonesOf(part.sheet.material.name) : TONES.laminate;
  const z = [placement.at.z, placement.at.z + thicknessOf(part)] as const;
  for (const s of solidWhere) pen.box(block(section, panel, { s, z }), { fill: tones.mid });
  if (part.form !== 'board') return;
  const { copperMm } = part.laminate;
  // Copper is far thinner than a line: it is drawn at least as thick as can be seen.
  const thick = Math.max(copperMm, 0.5 / section.scale);
  for (const s of darkStretches(panel, piece, part.copper.top))
    pen.box(block(section, panel, { s, z: [z[1], z[1] + thick] }), { fill: TONES.copper.mid, stroke: 'none' });
  for (const s of darkStretches(panel, piece, part.copper.bottom))
    pen.box(block(section, panel, { s, z: [z[0] - thick, z[0]] }), { fill: TONES.copper.mid, stroke: 'none' });
}

type Copper = Extract<Piece['part'], { form: 'board' }>['copper']['top'];

/** Where the cut meets copper: pieces in order, a clear one takes away what lies below it. */
function darkStretches(panel: Panel, piece: Piece, copper: Copper): readonly Stretch[] {
  let dark: readonly Stretch[] = [];
  for (const one of copper) {
    const own = cutStretches(panel.plane, [one.contour], piece.placement);
    dark = one.polarity === 'dark' ? [...dark, ...own] : own.reduce(without, dark);
  }
  return dark;
}

const without = (dark: readonly Stretch[], hole: Stretch): readonly Stretch[] =>
  dark.flatMap(([from, to]): readonly Stretch[] =>
    [[from, Math.min(to, hole[0])] as const, [Math.max(from, hole[1]), to] as const].filter(([a, b]) => b > a),
  );

/** Rods and tubes: drawn along where they run in the cut, as a disc where they go through it. */
function drawCutBar(pen: Pen, section: Section, { panel, piece }: InPanel): void {
  const { part, placement } = piece;
  if (part.form !== 'rod' && part.form !== 'tube') return;
  const line: readonly Point3[] =
    part.form === 'rod'
      ? part.corners
      : [
          { x: 0, y: 0, z: 0 },
          { x: part.lengthMm, y: 0, z: 0 },
        ];
  const diameterMm = part.form === 'rod' ? part.rod.diameterMm : part.tube.outerMm;
  const tones = tonesOf((part.form === 'rod' ? part.rod : part.tube).material.name);
  const placed = line.map((point) => placePoint(point, placement));
  placed.slice(1).forEach((to, index) => {
    const from = placed[index] ?? to;
    const [a, b] = [inPlane(panel.plane, from), inPlane(panel.plane, to)];
    const clip = (s: number): number => Math.min(panel.plane.right, Math.max(-panel.plane.left, s));
    const outside = Math.max(a.s, b.s) < -panel.plane.left || Math.min(a.s, b.s) > panel.plane.right;
    if (outside) return;
    if (Math.abs(a.off) < 1e-3 && Math.abs(b.off) < 1e-3) {
      const ends = [
        pagePoint(section, panel, { s: clip(a.s), z: from.z }),
        pagePoint(section, panel, { s: clip(b.s), z: to.z }),
      ];
      drawStrokedRod(pen, ends, { widthMm: diameterMm * section.scale, tones });
    } else if (a.off >= 0 !== b.off >= 0) {
      const s = a.s + ((b.s - a.s) * a.off) / (a.off - b.off);
      pen.circle(pagePoint(section, panel, { s, z: from.z }), (diameterMm / 2) * section.scale, { fill: tones.mid });
    }
  });
}

/** Fasteners are drawn whole, not cut, as is usual for screws, nuts and spacers (ISO 128 practice, memory). */
function bodiesOf(assembly: Assembly, panel: Panel, piece: Piece): readonly Prism[] {
  const { part, placement } = piece;
  const { s, off } = inPlane(panel.plane, placement.at);
  if (Math.abs(off) > 1e-3 || s < -panel.plane.left || s > panel.plane.right) return [];
  if (part.form === 'printed-spacer') {
    const outer = disc(placement.at, part.outerMm);
    return [{ outer, holes: [], from: placement.at.z, to: placement.at.z + part.heightMm, tones: TONES.plastic }];
  }
  if (part.form !== 'bought') return [];
  const place = { centre: placement.at, z: placement.at.z, headUp: !isBehind(assembly, piece) };
  return (boughtSolid(part, place) ?? solid([{ outer: [], holes: [], from: 0, to: 0, tones: TONES.steel }])).prisms;
}

function extentAlong(panel: Panel, prism: Prism): Stretch {
  const places = prism.outer.map((point) => inPlane(panel.plane, point).s);
  return [Math.min(...places), Math.max(...places)];
}

function widthAlong(panel: Panel, prism: Prism): number {
  const [from, to] = extentAlong(panel, prism);
  return to - from;
}

function drawBody(
  pen: Pen,
  section: Section,
  { panel, prism }: { readonly panel: Panel; readonly prism: Prism },
): void {
  if (prism.outer.length === 0) return;
  const s = extentAlong(panel, prism);
  const box = block(section, panel, { s, z: [prism.from, prism.to] });
  pen.box(box, { fill: prism.tones.light });
  if (prism.outer.length !== 6) return;
  const edges = [...new Set(prism.outer.map((point) => Math.round(inPlane(panel.plane, point).s * 1e4) / 1e4))];
  pen.lines(
    edges.map(
      (edge) =>
        [
          pagePoint(section, panel, { s: edge, z: prism.from }),
          pagePoint(section, panel, { s: edge, z: prism.to }),
        ] as const,
    ),
    { width: 0.12 },
  );
}

/** The cable cut through its middle: jacket to the back of the reflector, dielectric to its front, pin up to the harness. */
function drawCoax(pen: Pen, section: Section, panel: Panel): void {
  const { design, layerHeights } = section.assembly;
  const { coax, connector } = design.coax;
  const { s } = inPlane(panel.plane, section.assembly.coaxPoint);
  const underside = reflectorUndersideMm(design);
  const low = underside - STUMP_MM;
  const part = (widthMm: number, z: readonly [number, number], fill: string) =>
    pen.box(block(section, panel, { s: [s - widthMm / 2, s + widthMm / 2], z }), { fill });
  const rise = coaxPinRiseMm(design, layerHeights[0]?.topMm ?? 0);
  if (connector?.mount === 'board') {
    part(coax.jacketMm * 1.8, [low, underside], TONES.steel.mid);
    part(coax.pinMm, [underside, rise], TONES.steel.light);
    return;
  }
  part(coax.jacketMm, [low, underside], TONES.copper.mid);
  part(coax.dielectricMm, [low, underside + section.assembly.reflector.thicknessMm], TONES.plastic.light);
  part(coax.pinMm, [low, rise], TONES.steel.light);
}

/** Places along the cut where gaps are dimensioned: inside the shortest patch, off the fixing. */
function gapPlaceMm(assembly: Assembly): number {
  const lengths = assembly.design.layers.map(({ shape }) => shapeExtent(shape, 'vertical').heightMm);
  return Math.min(...lengths) * 0.36;
}

interface Gap {
  readonly fromMm: number;
  readonly toMm: number;
}

/** Air between one sheet and the next, from the reflector outward. */
function gapsOf(assembly: Assembly): readonly Gap[] {
  const base = reflectorUndersideMm(assembly.design) + assembly.reflector.thicknessMm;
  return assembly.layerHeights.flatMap((height, layer) => {
    const fromMm = layer === 0 ? base : (assembly.layerHeights[layer - 1]?.bodyTopMm ?? 0);
    return height.bodyUndersideMm - fromMm > 0.01 ? [{ fromMm, toMm: height.bodyUndersideMm }] : [];
  });
}

function drawGaps(pen: Pen, section: Section): void {
  const group = pen.group('gaps', { stroke: INK, width: 0.15, fill: 'none' });
  for (const gap of gapsOf(section.assembly)) {
    const s = gapPlaceMm(section.assembly);
    const [low, high] = [gap.fromMm, gap.toMm].map((z) => pagePoint(section, section.stack, { s, z }));
    if (low === undefined || high === undefined) continue;
    group.line(low, high);
    const lengthMm = Math.min(2, (high.y - low.y) * 0.35);
    arrowHead(group, low, { direction: { x: 0, y: -1 }, lengthMm, colour: INK });
    arrowHead(group, high, { direction: { x: 0, y: 1 }, lengthMm, colour: INK });
  }
}

function calloutsOf(
  assembly: Assembly,
  view: { readonly plane: SectionPlane; readonly scale: number },
): readonly Callout[] {
  const { scale, plane } = view;
  const { design } = assembly;
  const under = reflectorUndersideMm(design);
  const reflector: Callout = {
    id: 'reflector',
    anchor: { x: (plane.right - 1.5) * scale, y: (under + assembly.reflector.thicknessMm / 2) * scale },
    title: 'reflector',
    lines: [`${plain(assembly.reflector.thicknessMm)} mm`],
  };
  const layers = design.layers.flatMap((layer, index): readonly Callout[] => {
    const height = assembly.layerHeights[index];
    if (height === undefined) return [];
    const length = shapeExtent(layer.shape, 'vertical').heightMm;
    const y = ((height.bodyUndersideMm + height.bodyTopMm) / 2) * scale;
    const thick = plain(height.bodyTopMm - height.bodyUndersideMm, 3);
    return [
      {
        id: `layer-${index}`,
        anchor: { x: (length / 2 - 0.8) * scale, y },
        title: `${layer.name} patch`,
        lines: [`${thick} mm thick, ${plain(length)} mm along the cut`],
      },
    ];
  });
  const gaps = gapsOf(assembly).map(
    (gap, index): Callout => ({
      id: `gap-${index}`,
      anchor: { x: gapPlaceMm(assembly) * scale, y: ((gap.fromMm + gap.toMm) / 2) * scale },
      title: `gap ${plain(gap.toMm - gap.fromMm)} mm`,
      lines: [],
    }),
  );
  return [reflector, ...layers, ...gaps];
}
