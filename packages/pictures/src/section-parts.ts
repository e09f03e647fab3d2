import type { Pen } from '@sheetwave/drawings';
import { thicknessOf } from '@sheetwave/drawings';
import {
  type Assembly,
  type Bounds,
  type Contour,
  coaxPinRiseMm,
  foldedReflector,
  type Point,
  type Point3,
  placePoint,
  reflectorUndersideMm,
} from '@sheetwave/geometry';
import type { Prism } from './axonometry.ts';
import { boughtSolid, disc } from './hardware-solids.ts';
import { TONES, tonesOf } from './palette.ts';
import { drawStrokedRod } from './rod-stroke.ts';
import { cutStretches, inPlane, type Stretch } from './section-plane.ts';
import { hasCoax, type Panel, type Section, STUMP_MM } from './section-view.ts';
import { isBehind, type Piece } from './tiers.ts';

/** Draws what a cut meets: sheets and rods cut, fasteners whole, the coax where it comes through. */
export function drawPanel(pen: Pen, section: Section, panel: Panel): void {
  const flats = panel.pieces.filter(({ part }) => part.form === 'plate' || part.form === 'board');
  for (const piece of flats) drawCutSheet(pen, section, { panel, piece });
  for (const piece of panel.pieces) drawCutBar(pen, section, { panel, piece });
  const bodies = panel.pieces.flatMap((piece) => bodiesOf(section.assembly, panel, piece));
  // Slim bodies first: a stud or a shank vanishes in the spacer that it is screwed into.
  for (const prism of [...bodies].sort((a, b) => widthAlong(panel, a) - widthAlong(panel, b)))
    drawBody(pen, section, { panel, prism });
  if (hasCoax(section.assembly, panel.plane)) drawCoax(pen, section, panel);
}

export function pagePoint(section: Section, panel: Panel, at: { readonly s: number; readonly z: number }): Point {
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
  const folded = part.role === 'reflector' ? foldedReflector(section.assembly) : undefined;
  const outer = folded?.face ?? part.outline.outer;
  const solidWhere = cutStretches(panel.plane, [outer, ...part.outline.cutouts, ...holes], placement);
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
  return boughtSolid(part, place)?.prisms ?? [];
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
  if (connector !== undefined && connector.mount !== 'cable') {
    part(coax.jacketMm * 1.8, [low, underside], TONES.steel.mid);
    part(coax.pinMm, [underside, rise], TONES.steel.light);
    return;
  }
  part(coax.jacketMm, [low, underside], TONES.copper.mid);
  part(coax.dielectricMm, [low, underside + section.assembly.reflector.thicknessMm], TONES.plastic.light);
  part(coax.pinMm, [low, rise], TONES.steel.light);
}
