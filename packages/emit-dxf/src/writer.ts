import Drawing from 'dxf-writer';
import Handle from 'dxf-writer/src/Handle.js';
import { checkDrawing } from './check-drawing.ts';
import type { DxfDrawing, DxfEntity } from './drawing.ts';
import { LAYERS } from './layers.ts';

/** Decimals of a coordinate: 1 nm. */
const COORDINATE_DECIMALS = 6;
/** Decimals of a bulge: a chord of 1 m then bows by at most 0.5 nm more or less. */
const BULGE_DECIMALS = 9;
/** JavaScript writes smaller numbers with an exponent. An arc this flat bows by less than 1 nm on 2 mm: a line. */
const SMALLEST_BULGE = 1e-6;

/**
 * The bytes of a DXF file in millimetres. The only place that knows the DXF library; what the library would write as
 * given (NaN, exponents, unknown layers, line breaks) is refused or rounded here. The same drawing gives the same bytes.
 *
 * Units are stated twice, because readers look at different variables: $INSUNITS = 4 and $MEASUREMENT = 1.
 *
 * @throws Error when the drawing breaks a rule of `checkDrawing`, or the library wrote something unexpected.
 */
export function writeDxf(drawing: DxfDrawing): Uint8Array {
  const rounded = roundDrawing(drawing);
  checkDrawing(rounded);
  // Handles come from a counter of the whole process; a file must not depend on what was written before it.
  Handle.seed = 0;
  const file = new Drawing();
  file.setUnits('Millimeters');
  file.header('MEASUREMENT', [[70, 1]]);
  writeExtents(file, rounded.extents);
  for (const { name, colour } of LAYERS) file.addLayer(name, colour, 'CONTINUOUS');
  for (const entity of rounded.entities) draw(file.setActiveLayer(entity.layer), entity);
  return new TextEncoder().encode(`${withDecimalPoints(file.toDxfString())}\n`);
}

function writeExtents(file: Drawing, { minX, minY, maxX, maxY }: DxfDrawing['extents']): void {
  const corner = (x: number, y: number): [number, number][] => [
    [10, x],
    [20, y],
    [30, 0],
  ];
  file.header('EXTMIN', corner(minX, minY));
  file.header('EXTMAX', corner(maxX, maxY));
}

function draw(file: Drawing, entity: DxfEntity): void {
  switch (entity.kind) {
    case 'loop':
    case 'open': {
      const points = entity.vertices.map(({ x, y, bulge }) => [x, y, bulge]);
      // The library reads a third number as the bulge; its types know two.
      file.drawPolyline(points as unknown as [number, number][], entity.kind === 'loop');
      return;
    }
    case 'circle':
      file.drawCircle(entity.centre.x, entity.centre.y, entity.radiusMm);
      return;
    case 'line':
      file.drawLine(entity.from.x, entity.from.y, entity.to.x, entity.to.y);
      return;
    case 'text': {
      const across = entity.align === 'middle' ? 'center' : 'left';
      file.drawText(entity.at.x, entity.at.y, entity.heightMm, 0, entity.text, across, 'baseline');
    }
  }
}

function roundDrawing({ entities, extents }: DxfDrawing): DxfDrawing {
  const { minX, minY, maxX, maxY } = extents;
  return {
    entities: entities.map(roundEntity),
    extents: { minX: roundMm(minX), minY: roundMm(minY), maxX: roundMm(maxX), maxY: roundMm(maxY) },
  };
}

function roundEntity(entity: DxfEntity): DxfEntity {
  switch (entity.kind) {
    case 'loop':
    case 'open':
      return {
        ...entity,
        vertices: entity.vertices.map((vertex) => ({ ...roundPoint(vertex), bulge: roundBulge(vertex.bulge) })),
      };
    case 'circle':
      return { ...entity, centre: roundPoint(entity.centre), radiusMm: roundMm(entity.radiusMm) };
    case 'line':
      return { ...entity, from: roundPoint(entity.from), to: roundPoint(entity.to) };
    case 'text':
      return { ...entity, at: roundPoint(entity.at), heightMm: roundMm(entity.heightMm) };
  }
}

const roundPoint = ({ x, y }: { x: number; y: number }) => ({ x: roundMm(x), y: roundMm(y) });

/** A length as it is written. */
export function roundMm(mm: number): number {
  return roundTo(mm, COORDINATE_DECIMALS);
}

function roundBulge(bulge: number): number {
  return Math.abs(bulge) < SMALLEST_BULGE ? 0 : roundTo(bulge, BULGE_DECIMALS);
}

/** Adding zero turns -0 into 0. */
const roundTo = (value: number, decimals: number): number => Math.round(value * 10 ** decimals) / 10 ** decimals + 0;

/**
 * Gives every real number of the file its decimal point, which strict readers ask for, and refuses any that is not plain.
 * Group codes 10 to 59, 140 to 147 and 210 to 239 hold reals (DXF reference, "Group code value types").
 */
function withDecimalPoints(text: string): string {
  const lines = text.split('\n');
  if (lines.length % 2 !== 0) throw new Error('DXF: codes and values do not pair up');
  return lines.map((line, index) => (index % 2 === 1 ? value(Number(lines[index - 1]), line) : line)).join('\n');
}

function value(code: number, written: string): string {
  if (!isRealCode(code)) return written;
  if (!/^-?\d+(\.\d+)?$/.test(written)) throw new Error(`DXF: group ${code} has the value ${written}`);
  return written.includes('.') ? written : `${written}.0`;
}

const isRealCode = (code: number): boolean =>
  (code >= 10 && code <= 59) || (code >= 140 && code <= 147) || (code >= 210 && code <= 239);
