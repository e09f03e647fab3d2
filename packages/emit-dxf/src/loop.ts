import { type Contour, contourPieces, type OpenPath, type Piece } from '@sheetwave/geometry';
import type { DxfEntity, Vertex } from './drawing.ts';
import type { LayerName } from './layers.ts';
import { roundMm } from './writer.ts';

/** A contour as one closed entity: a circle stays a circle, arcs become bulges. */
export function contourEntity(contour: Contour, layer: LayerName): DxfEntity {
  if (contour.kind === 'circle') return { kind: 'circle', layer, centre: contour.centre, radiusMm: contour.radiusMm };
  return { kind: 'loop', layer, vertices: dropRepeats(contourPieces(contour).flatMap(pieceVertices)) };
}

/** A line from its start to its end as one open entity. */
export function openEntity({ start, segments }: OpenPath, layer: LayerName): DxfEntity {
  const pieces = contourPieces({ kind: 'path', start, segments });
  const end = pieces.at(-1)?.to ?? start;
  return { kind: 'open', layer, vertices: [...pieces.flatMap(pieceVertices), { x: end.x, y: end.y, bulge: 0 }] };
}

/**
 * Bulge = tan(θ/4), positive to the left (DXF reference, LWPOLYLINE, group 42). An arc of more than half a turn is given
 * in two, since some cutters misread a bulge above 1.
 */
function pieceVertices(piece: Piece): readonly Vertex[] {
  const { x, y } = piece.from;
  if (piece.kind === 'line') return [{ x, y, bulge: 0 }];
  const { centre, radiusMm, startRad, sweepRad } = piece;
  if (Math.abs(sweepRad) <= Math.PI * (1 + 1e-9)) return [{ x, y, bulge: Math.tan(sweepRad / 4) }];
  const bulge = Math.tan(sweepRad / 8);
  const middle = startRad + sweepRad / 2;
  return [
    { x, y, bulge },
    { x: centre.x + radiusMm * Math.cos(middle), y: centre.y + radiusMm * Math.sin(middle), bulge },
  ];
}

/** Leaves out a vertex that is written at the same place as the next: its segment has no length. */
function dropRepeats(vertices: readonly Vertex[]): readonly Vertex[] {
  return vertices.filter((vertex, index) => {
    const next = vertices[(index + 1) % vertices.length];
    return next === undefined || roundMm(vertex.x) !== roundMm(next.x) || roundMm(vertex.y) !== roundMm(next.y);
  });
}
