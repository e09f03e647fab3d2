import type { Point } from '../contour.ts';
import { dxfEntities, dxfSection, dxfTags, type Entity, numberOf, type Tag, tagNumber } from './dxf-tags.ts';
import { arcEdges, type Edge, lineEdge, polylineEdges, type Strokes } from './edge.ts';
import { DrawingFault } from './fault.ts';
import { type DrawingUnit, unitOf } from './units.ts';

/** Values of $INSUNITS that name a unit of workshop drawings (DXF Reference, header variables; memory). 0 means none. */
const INSUNITS: Readonly<Record<number, { readonly mm: number; readonly words: string }>> = {
  1: { mm: 25.4, words: 'inches' },
  4: { mm: 1, words: 'millimetres' },
  5: { mm: 10, words: 'centimetres' },
  6: { mm: 1000, words: 'metres' },
  9: { mm: 0.0254, words: 'mils' },
  13: { mm: 0.001, words: 'micrometres' },
};

/** Words and dimensions: they draw no outline. */
const ANNOTATIONS = new Set(['TEXT', 'MTEXT', 'ATTDEF', 'POINT', 'DIMENSION', 'LEADER', 'MULTILEADER', 'VIEWPORT']);

/**
 * The strokes of a DXF text file: LINE, ARC, CIRCLE, LWPOLYLINE and two-dimensional POLYLINE with bulges (DXF Reference,
 * "Entities section"; memory). Words and dimensions are passed over; any other entity is a fault, because leaving it out would change the part.
 */
export function dxfStrokes(text: string, given: DrawingUnit | undefined): Strokes {
  const tags = dxfTags(text);
  const section = dxfSection(tags, 'ENTITIES');
  if (section === undefined)
    throw new DrawingFault('not-dxf', 'has no ENTITIES section', 'save the drawing as DXF in text form');
  const scale = unitOf(ownUnit(dxfSection(tags, 'HEADER') ?? []), given);
  const found = { loops: [] as (readonly Edge[])[], edges: [] as Edge[], circles: [] as Strokes['circles'][number][] };
  for (const entity of withVertices(dxfEntities(section).filter(isDrawn))) addEntity(entity, scale, found);
  return found;
}

function ownUnit(header: readonly Tag[]): { readonly mm: number; readonly words: string } | undefined {
  const at = header.findIndex((tag) => tag.code === 9 && tag.value === '$INSUNITS');
  const value = header[at + 1];
  if (at < 0 || value === undefined) return undefined;
  const number = tagNumber(value);
  if (number === 0) return undefined;
  const unit = INSUNITS[number];
  if (unit !== undefined) return unit;
  throw new DrawingFault(
    'units-unknown',
    `is drawn in unit ${number} of $INSUNITS`,
    'set the unit of the drawing to millimetres or inches',
  );
}

/** Not on paper space (67) and not hidden (60). */
function isDrawn(entity: Entity): boolean {
  return numberOf(entity, 67, 0) === 0 && numberOf(entity, 60, 0) === 0;
}

/** A POLYLINE takes the VERTEX entities behind it; SEQEND ends them. */
function withVertices(entities: readonly Entity[]): readonly (Entity & { readonly vertices: readonly Entity[] })[] {
  const whole: (Entity & { vertices: Entity[] })[] = [];
  for (const entity of entities) {
    if (entity.name === 'VERTEX') whole.at(-1)?.vertices.push(entity);
    else if (entity.name !== 'SEQEND') whole.push({ ...entity, vertices: [] });
  }
  return whole;
}

interface Found {
  readonly loops: (readonly Edge[])[];
  readonly edges: Edge[];
  readonly circles: Strokes['circles'][number][];
}

function addEntity(entity: Entity & { readonly vertices: readonly Entity[] }, scale: number, found: Found): void {
  if (ANNOTATIONS.has(entity.name)) return;
  requireFlat(entity);
  const mm = (code: number): number => scale * numberOf(entity, code);
  switch (entity.name) {
    case 'LINE':
      found.edges.push(lineEdge({ x: mm(10), y: mm(20) }, { x: mm(11), y: mm(21) }));
      return;
    case 'CIRCLE':
      found.circles.push({ kind: 'circle', centre: { x: mm(10), y: mm(20) }, radiusMm: radius(entity, scale) });
      return;
    case 'ARC':
      addArc(entity, scale, found);
      return;
    case 'LWPOLYLINE':
      addPolyline(entity, lightVertices(entity, scale), found);
      return;
    case 'POLYLINE':
      addPolyline(
        entity,
        entity.vertices.map((vertex) => vertexOf(vertex, scale)),
        found,
      );
      return;
    default:
      throw new DrawingFault(
        'drawing-unsupported',
        `holds ${/^[AEIOU]/.test(entity.name) ? 'an' : 'a'} ${entity.name.slice(0, 30)} on line ${entity.line}, which is not read`,
        'turn everything into polylines, lines, arcs and circles, and take blocks apart',
      );
  }
}

/** Entities seen from behind or tilted have another extrusion direction (groups 210, 220, 230) than (0, 0, 1). */
function requireFlat(entity: Entity): void {
  const [x, y, z] = [numberOf(entity, 210, 0), numberOf(entity, 220, 0), numberOf(entity, 230, 1)];
  if (Math.abs(x) < 1e-9 && Math.abs(y) < 1e-9 && z > 0) return;
  throw new DrawingFault(
    'drawing-unsupported',
    `holds a mirrored or tilted ${entity.name} on line ${entity.line}`,
    'draw it flat, seen from above',
  );
}

function radius(entity: Entity, scale: number): number {
  const value = scale * numberOf(entity, 40);
  if (value > 0) return value;
  throw new DrawingFault('not-dxf', `has a ${entity.name} without a radius on line ${entity.line}`, 'remove it');
}

/** Counter-clockwise from the start angle (50) to the end angle (51), in degrees. */
function addArc(entity: Entity, scale: number, found: Found): void {
  const centre = { x: scale * numberOf(entity, 10), y: scale * numberOf(entity, 20) };
  const radiusMm = radius(entity, scale);
  const [start, end] = [numberOf(entity, 50), numberOf(entity, 51)];
  const turn = (((end - start) % 360) + 360) % 360;
  if (turn < 1e-9 || turn > 360 - 1e-9) found.circles.push({ kind: 'circle', centre, radiusMm });
  else
    found.edges.push(
      ...arcEdges({ centre, radiusMm, startRad: (start * Math.PI) / 180, sweepRad: (turn * Math.PI) / 180 }),
    );
}

type Vertex = Point & { readonly bulge: number };

function lightVertices(entity: Entity, scale: number): readonly Vertex[] {
  const vertices: { x: number; y: number; bulge: number }[] = [];
  for (const tag of entity.tags) {
    const last = vertices.at(-1);
    if (tag.code === 10) vertices.push({ x: scale * tagNumber(tag), y: Number.NaN, bulge: 0 });
    else if (tag.code === 20 && last) last.y = scale * tagNumber(tag);
    else if (tag.code === 42 && last) last.bulge = tagNumber(tag);
  }
  if (vertices.some((vertex) => Number.isNaN(vertex.y)))
    throw new DrawingFault(
      'not-dxf',
      `has an LWPOLYLINE on line ${entity.line} with half a point`,
      'save the drawing again',
    );
  return vertices;
}

function vertexOf(vertex: Entity, scale: number): Vertex {
  return { x: scale * numberOf(vertex, 10), y: scale * numberOf(vertex, 20), bulge: numberOf(vertex, 42, 0) };
}

/** Group 70: 1 closed; 2, 4 fitted curves; 8, 16, 64 in space. */
function addPolyline(entity: Entity, vertices: readonly Vertex[], found: Found): void {
  const flags = numberOf(entity, 70, 0);
  if (entity.name === 'POLYLINE' && (flags & (2 | 4 | 8 | 16 | 64)) !== 0)
    throw new DrawingFault(
      'drawing-unsupported',
      `holds a fitted or spatial POLYLINE on line ${entity.line}`,
      'turn it into a plain polyline',
    );
  const closed = (flags & 1) === 1;
  if (closed) found.loops.push(polylineEdges(vertices, true));
  else found.edges.push(...polylineEdges(vertices, false));
}
