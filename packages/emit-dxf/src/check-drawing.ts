import type { DxfDrawing, DxfEntity, Vertex } from './drawing.ts';
import { LAYERS, type LayerUse } from './layers.ts';

/** No sheet is larger; a bigger number is a slip of units. */
const LARGEST_MM = 100_000;
const LONGEST_TEXT = 250;

const USES = new Map<string, LayerUse>(LAYERS.map(({ name, use }) => [name, use]));

const ALLOWED: Readonly<Record<LayerUse, readonly DxfEntity['kind'][]>> = {
  closed: ['loop', 'circle'],
  open: ['open'],
  strokes: ['loop', 'circle', 'line'],
  words: ['loop', 'circle', 'line', 'text'],
};

/**
 * Throws for whatever a cutter would stumble over: a layer nobody declared, an open line or text on a cut layer, a
 * number that is not finite or out of range, a segment of no length, the same curve twice, a control character in text.
 * Coordinates are compared as they will be written, so they must have been rounded before.
 */
export function checkDrawing(drawing: DxfDrawing): void {
  const seen = new Set<string>();
  for (const entity of drawing.entities) {
    checkLayer(entity);
    checkShape(entity);
    const key = `${entity.layer} ${shapeKey(entity)}`;
    if (seen.has(key)) throw new Error(`DXF: the same ${entity.kind} twice on ${entity.layer}: it would be cut twice`);
    seen.add(key);
  }
  checkNumbers(Object.entries(drawing.extents));
}

function checkLayer({ kind, layer }: DxfEntity): void {
  const use = USES.get(layer);
  if (use === undefined) throw new Error(`DXF: no layer ${layer}; there are ${[...USES.keys()].join(', ')}`);
  if (!ALLOWED[use].includes(kind)) throw new Error(`DXF: a ${kind} does not belong on layer ${layer}`);
}

function checkShape(entity: DxfEntity): void {
  switch (entity.kind) {
    case 'loop':
      checkLoop(entity.vertices);
      return;
    case 'open':
      checkOpen(entity.vertices);
      return;
    case 'circle':
      checkNumbers(Object.entries({ ...entity.centre, radius: entity.radiusMm }));
      if (!(entity.radiusMm > 0)) throw new Error(`DXF: a circle of radius ${entity.radiusMm} mm`);
      return;
    case 'line':
      checkNumbers([...Object.entries(entity.from), ...Object.entries(entity.to)]);
      if (samePlace(entity.from, entity.to)) throw new Error('DXF: a line of no length');
      return;
    case 'text':
      checkNumbers(Object.entries({ ...entity.at, height: entity.heightMm }));
      checkText(entity.text);
  }
}

function checkLoop(vertices: readonly Vertex[]): void {
  const round = vertices.some(({ bulge }) => bulge !== 0);
  if (vertices.length < (round ? 2 : 3)) throw new Error(`DXF: a closed curve of ${vertices.length} corners`);
  let before = vertices.at(-1);
  for (const vertex of vertices) {
    checkNumbers(Object.entries(vertex));
    if (before !== undefined && samePlace(before, vertex))
      throw new Error(`DXF: a segment of no length at (${vertex.x}, ${vertex.y}) mm`);
    before = vertex;
  }
}

function checkOpen(vertices: readonly Vertex[]): void {
  if (vertices.length < 2) throw new Error(`DXF: an open line of ${vertices.length} corners`);
  let before: Vertex | undefined;
  for (const vertex of vertices) {
    checkNumbers(Object.entries(vertex));
    if (before !== undefined && samePlace(before, vertex))
      throw new Error(`DXF: a segment of no length at (${vertex.x}, ${vertex.y}) mm`);
    before = vertex;
  }
}

function checkText(text: string): void {
  if (text.trim() === '' || text.length > LONGEST_TEXT) throw new Error(`DXF: a text of ${text.length} characters`);
  // A line break inside a value would shift every group after it.
  if (/\p{C}/u.test(text)) throw new Error(`DXF: a control character in ${JSON.stringify(text)}`);
}

function checkNumbers(numbers: readonly (readonly [string, number])[]): void {
  for (const [name, value] of numbers) {
    if (!Number.isFinite(value) || Math.abs(value) > LARGEST_MM)
      throw new Error(`DXF: ${name} is ${value}; it must be a number within ±${LARGEST_MM} mm`);
  }
}

const samePlace = (a: { x: number; y: number }, b: { x: number; y: number }): boolean => a.x === b.x && a.y === b.y;

/** The same for two curves that lie on each other, whichever corner they start from or way they run. */
function shapeKey(entity: DxfEntity): string {
  switch (entity.kind) {
    case 'loop':
    case 'open':
      return `${entity.kind} ${entity.vertices
        .map(({ x, y }) => `${x},${y}`)
        .sort()
        .join(' ')} ${entity.vertices
        .map(({ bulge }) => Math.abs(bulge))
        .sort()
        .join(' ')}`;
    case 'circle':
      return `circle ${entity.centre.x},${entity.centre.y} ${entity.radiusMm}`;
    case 'line':
      return `line ${[entity.from, entity.to]
        .map(({ x, y }) => `${x},${y}`)
        .sort()
        .join(' ')}`;
    case 'text':
      return `text ${entity.at.x},${entity.at.y} ${entity.text}`;
  }
}
