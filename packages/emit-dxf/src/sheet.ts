import {
  type Assembly,
  boundsOfPoints,
  type NestedPiece,
  type NestedSheet,
  type PlatePart,
  placePoint,
  rectangleContour,
} from '@sheetwave/geometry';
import { type CutContours, cutContours, cutEntities, cutNotes } from './cut-contours.ts';
import type { DxfDrawing, DxfEntity } from './drawing.ts';
import { contourEntity } from './loop.ts';
import { markEntities } from './marks.ts';
import { lineMeaning, millimetres, noteBlock, oneLine, revisionNote, roughCutNote, UNIT_NOTE } from './notes.ts';
import { pieceMarks } from './piece-marks.ts';

/** Between the sheet and the notes below it. */
const NOTE_GAP_MM = 10;

/**
 * Everything that is cut from one sheet, each part on its layers as in its own file. The edge of the sheet and the names of the parts are on NOTE.
 * The lower left corner of the sheet is (0, 0).
 */
export function sheetDrawing(nested: NestedSheet, design: Assembly['design']): DxfDrawing {
  const cuts = cutsOf(nested.pieces);
  const notes = noteBlock(sheetNotes(nested, design, cuts), { x: 0, y: -NOTE_GAP_MM });
  const { widthMm, heightMm } = nested;
  const edge = rectangleContour({ centre: { x: widthMm / 2, y: heightMm / 2 }, widthMm, heightMm });
  const corners = [
    { x: widthMm, y: heightMm },
    { x: 0, y: notes.lowestY },
    { x: notes.widthMm, y: notes.lowestY },
  ];
  return {
    entities: [
      ...nested.pieces.flatMap((piece) => pieceEntities(piece, cuts)),
      contourEntity(edge, 'NOTE'),
      ...notes.entities,
    ],
    extents: boundsOfPoints(corners),
  };
}

/** The lines of each kind of part once, however many of it there are. */
function cutsOf(pieces: readonly NestedPiece[]): ReadonlyMap<string, CutContours> {
  const cuts = new Map<string, CutContours>();
  for (const { part } of pieces) if (!cuts.has(part.id)) cuts.set(part.id, cutContours(part));
  return cuts;
}

function pieceEntities(piece: NestedPiece, cuts: ReadonlyMap<string, CutContours>): readonly DxfEntity[] {
  const cut = cuts.get(piece.part.id);
  if (cut === undefined) throw new Error(`sheet: no lines for ${piece.part.id}`);
  const place = { at: { ...piece.at, z: 0 }, turnDeg: piece.turnDeg };
  const { x, y } = placePoint({ x: 0, y: 0 }, place);
  const name: DxfEntity = {
    kind: 'text',
    layer: 'NOTE',
    at: { x, y },
    align: 'middle',
    heightMm: 2,
    text: piece.part.id,
  };
  return [...markEntities(pieceMarks(piece.part.marks, place)), ...cutEntities(cut, place), name];
}

function sheetNotes(
  nested: NestedSheet,
  design: Assembly['design'],
  cuts: ReadonlyMap<string, CutContours>,
): readonly string[] {
  const { sheet, process, number, widthMm, heightMm, gapMm, largestLeft } = nested;
  const left =
    largestLeft &&
    `${rounded(largestLeft.maxX - largestLeft.minX)} x ${rounded(largestLeft.maxY - largestLeft.minY)} mm`;
  return [
    `${design.name}: sheet ${number} of ${sheet.label}`,
    revisionNote(design),
    `sheet: ${rounded(widthMm)} x ${rounded(heightMm)} mm, thickness ${millimetres(sheet.thicknessMm)}; its edge is on NOTE`,
    `process: ${process.label}`,
    ...partCounts(nested.pieces),
    lineMeaning(process),
    ...new Set(kindsOf(nested.pieces).flatMap(roughCutNote)),
    ...cornerNotes(nested.pieces, cuts),
    `at least ${millimetres(gapMm)} between parts, ${millimetres(process.edgeMarginMm)} to the edge`,
    ...(left === undefined ? [] : [`left in one piece: ${left}`]),
    UNIT_NOTE,
  ].map(oneLine);
}

/** Each part once. */
const kindsOf = (pieces: readonly NestedPiece[]): readonly PlatePart[] => [
  ...new Map(pieces.map(({ part }) => [part.id, part] as const)).values(),
];

function partCounts(pieces: readonly NestedPiece[]): readonly string[] {
  const counts = new Map<string, number>();
  for (const { part } of pieces) counts.set(part.name, (counts.get(part.name) ?? 0) + 1);
  return [...counts].map(([name, count]) => `${count} x ${name}`);
}

/** Each sentence once, with the part it is about. */
function cornerNotes(pieces: readonly NestedPiece[], cuts: ReadonlyMap<string, CutContours>): readonly string[] {
  return kindsOf(pieces).flatMap((part) => {
    const cut = cuts.get(part.id);
    return cut === undefined ? [] : cutNotes(cut, part.process).map((note) => `${part.name}: ${note}`);
  });
}

const rounded = (mm: number): string => String(Number(mm.toFixed(1)));
