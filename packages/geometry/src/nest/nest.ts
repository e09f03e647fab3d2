import type { Finding, Process, Sheet } from '@sheetwave/design';
import type { Assembly, PlatePart } from '../assembly.ts';
import { type Bounds, signedArea } from '../contour-measure.ts';
import type { Point } from '../outline.ts';
import { chooseSheet, gapOf, type Layout, lyingSizes, roomOn } from './choose-sheet.ts';
import { type Footprint, footprintOf } from './footprint.ts';
import { largestFreeRectangle } from './largest-rectangle.ts';
import type { LaidPiece } from './lay-out.ts';
import { oversizeFinding, sizelessFinding, stockFinding } from './nest-findings.ts';
import { fits } from './pack-rectangles.ts';

/** One piece of a plate on a sheet: turned about its own origin, then moved, as `placeContour` does. */
export interface NestedPiece {
  readonly part: PlatePart;
  readonly turnDeg: 0 | 90;
  readonly at: Point;
}

/** One sheet to buy and what is cut from it. Its lower left corner is (0, 0). */
export interface NestedSheet {
  readonly sheet: Sheet;
  readonly process: Process;
  /** Of all sheets of this stock, from 1. */
  readonly number: number;
  /** Along x. */
  readonly widthMm: number;
  /** Along y. */
  readonly heightMm: number;
  /** Least distance between parts on it. */
  readonly gapMm: number;
  readonly pieces: readonly NestedPiece[];
  /** Area of the sheet less that of its parts, openings in them not counted as left. */
  readonly leftMm2: number;
  /** The largest rectangle that keeps the gap from every part; undefined when there is none. */
  readonly largestLeft: Bounds | undefined;
}

export interface Nest {
  /** By stock and process in the order of the parts; empty for stock without sizes. */
  readonly sheets: readonly NestedSheet[];
  readonly findings: readonly Finding[];
}

/**
 * All plates of an assembly on sheets as they are sold: one layout for each sheet stock and process, of the one size that wastes least, with the
 * spacing and edge margin of the process. Pieces are turned by 90° where that helps, unless they keep to the grain.
 * Findings: a part that is larger than any size or cannot be cut, stock that is no sheet (errors), and stock without known sizes (a note).
 * With an error there are no sheets of that stock. Time grows with the number of pieces times its logarithm.
 */
export function nest(assembly: Assembly): Nest {
  const sheets: NestedSheet[] = [];
  const findings: Finding[] = [];
  for (const group of groups(assembly)) {
    const made = nestGroup(group);
    findings.push(...made.findings);
    for (const one of made.sheets)
      sheets.push({ ...one, number: sheets.filter((other) => other.sheet.id === one.sheet.id).length + 1 });
  }
  return { sheets, findings };
}

type Group = readonly [PlatePart, ...PlatePart[]];

function groups(assembly: Assembly): readonly Group[] {
  const found = new Map<string, [PlatePart, ...PlatePart[]]>();
  for (const part of assembly.parts) {
    if (part.form !== 'plate' || part.quantity === 0) continue;
    const key = `${part.sheet.id} ${part.process.id}`;
    const group = found.get(key);
    if (group === undefined) found.set(key, [part]);
    else group.push(part);
  }
  return [...found.values()];
}

function nestGroup(group: Group): Nest {
  const [{ sheet, process }] = group;
  const none = (...findings: readonly Finding[]): Nest => ({ sheets: [], findings });
  const wrong = stockFinding(sheet);
  if (wrong !== undefined) return none(wrong);
  const made = group.map(footprintOf);
  const uncuttable = made.filter((one) => 'code' in one);
  if (uncuttable.length > 0) return none(...uncuttable);
  const prints = made.filter((one) => 'box' in one);
  if (sheet.sizesMm.length === 0) return none(sizelessFinding(sheet));
  const sizes = lyingSizes(
    sheet,
    group.some((part) => part.keepsGrain === true),
  );
  const oversize = prints.filter((print) => !sizes.some((size) => fits(print, roomOn(size, process))));
  if (oversize.length > 0) return none(...oversize.map((print) => oversizeFinding(print, sizes)));
  const layout = chooseSheet(prints, sizes, process);
  // Each fits on some size, but no size takes them all: they are then laid out apart.
  if (layout === undefined) return apart(group);
  return {
    sheets: layout.sheets.map((pieces, i) => nested(pieces, { layout, prints, process, sheet, number: i + 1 })),
    findings: [],
  };
}

/** One after the other, each on the size that suits it. */
function apart(group: Group): Nest {
  const nests = group.map((part) => nestGroup([part]));
  return { sheets: nests.flatMap((one) => one.sheets), findings: nests.flatMap((one) => one.findings) };
}

interface Frame {
  readonly layout: Layout;
  readonly prints: readonly Footprint[];
  readonly sheet: Sheet;
  readonly process: Process;
  readonly number: number;
}

function nested(laid: readonly LaidPiece[], { layout, prints, sheet, process, number }: Frame): NestedSheet {
  const { widthMm, heightMm } = layout;
  const gapMm = gapOf(process);
  const pieces = laid.map((piece) => placed(piece, printOf(prints, piece)));
  const covered = pieces.reduce((sum, { part }) => sum + Math.abs(signedArea(part.outline.outer)), 0);
  const boxes = laid.map((piece) => grown(piece, printOf(prints, piece), gapMm));
  const largestLeft = largestFreeRectangle({ minX: 0, minY: 0, maxX: widthMm, maxY: heightMm }, boxes);
  return {
    sheet,
    process,
    number,
    widthMm,
    heightMm,
    gapMm,
    pieces,
    leftMm2: widthMm * heightMm - covered,
    largestLeft,
  };
}

function printOf(prints: readonly Footprint[], piece: LaidPiece): Footprint {
  const print = prints[piece.of];
  if (print === undefined) throw new Error(`nesting: no part ${piece.of}`);
  return print;
}

/** A quarter turn takes (x, y) to (−y, x), so the lower left corner of the box becomes (−maxY, minX). */
function placed({ x, y, turned }: LaidPiece, { part, box }: Footprint): NestedPiece {
  if (turned) return { part, turnDeg: 90, at: { x: x + box.maxY, y: y - box.minX } };
  return { part, turnDeg: 0, at: { x: x - box.minX, y: y - box.minY } };
}

function grown(piece: LaidPiece, print: Footprint, byMm: number): Bounds {
  const [wide, high] = piece.turned ? [print.heightMm, print.widthMm] : [print.widthMm, print.heightMm];
  return { minX: piece.x - byMm, minY: piece.y - byMm, maxX: piece.x + wide + byMm, maxY: piece.y + high + byMm };
}
