import type { Finding, Process } from '@sheetwave/design';
import { BoxGrid, grownBox, pieceGrid } from '../box-grid.ts';
import { type Bounds, distanceToPiece, piecesContain } from '../contour-measure.ts';
import { errorFinding, mm, warningFinding } from '../finding.ts';
import type { Hole, Outline } from '../outline.ts';
import { contourPieces } from '../pieces.ts';
import { spot } from './contour-findings.ts';

interface Web {
  readonly webMm: number;
  readonly hole: Hole;
}

/** Holes outside the material or overlapping one another are errors; webs below what the process asks for are warnings, below half of it errors. */
export function holeFindings(outline: Outline, path: string, process: Process): Finding[] {
  const edges = edgeWebs(outline, process.leastWebMm);
  const between = webs(outline.holes, process.leastWebMm);
  return [
    ...edges.outside.slice(0, 1).map((hole) => outsideFinding(hole, path, edges.outside.length)),
    ...worst(edges.thin, process, { path, code: 'thin-web', to: 'the edge' }),
    ...worst(between, process, { path, code: 'holes-close', to: 'the next hole' }),
    ...narrowFindings(outline.holes, path, process),
  ];
}

function edgeWebs(outline: Outline, leastMm: number): { outside: Hole[]; thin: Web[] } {
  const outer = contourPieces(outline.outer);
  const cutouts = outline.cutouts.map(contourPieces);
  const near = pieceGrid([...outer, ...cutouts.flat()]);
  const outside: Hole[] = [];
  const thin: Web[] = [];
  for (const hole of outline.holes) {
    const inside = piecesContain(outer, hole.centre) && !cutouts.some((pieces) => piecesContain(pieces, hole.centre));
    const distances = near.near(grownBox(holeBox(hole), leastMm)).map((piece) => distanceToPiece(piece, hole.centre));
    const webMm = Math.min(...distances) - hole.diameterMm / 2;
    if (!inside || webMm < 0) outside.push(hole);
    else if (webMm < leastMm - 1e-9) thin.push({ webMm, hole });
  }
  return { outside, thin };
}

/** Webs between holes below the least one; below zero where they overlap. */
function webs(holes: readonly Hole[], leastMm: number): Web[] {
  const widest = holes.reduce((most, hole) => Math.max(most, hole.diameterMm), 0);
  const grid = new BoxGrid<Hole>(Math.max(1, widest + leastMm));
  const thin: Web[] = [];
  for (const hole of holes) {
    for (const other of grid.near(grownBox(holeBox(hole), leastMm))) {
      const apart = Math.hypot(hole.centre.x - other.centre.x, hole.centre.y - other.centre.y);
      const webMm = apart - (hole.diameterMm + other.diameterMm) / 2;
      if (webMm < leastMm - 1e-9) thin.push({ webMm, hole });
    }
    grid.add(holeBox(hole), hole);
  }
  return thin;
}

function worst(list: readonly Web[], process: Process, about: { path: string; code: string; to: string }): Finding[] {
  const [first] = [...list].sort((a, b) => a.webMm - b.webMm);
  if (first === undefined) return [];
  const more = list.length > 1 ? `, and ${list.length - 1} more` : '';
  const where = `${first.hole.purpose} hole of ${mm(first.hole.diameterMm)} at ${spot(first.hole.centre)}`;
  if (first.webMm < 0)
    return [
      errorFinding('holes-overlap', about.path, {
        value: where,
        allowed: `reaches ${mm(-first.webMm)} into another${more}`,
        remedy: 'move one of them apart, or use smaller holes',
      }),
    ];
  // Below half of what the process asks for the web breaks out; above it, it may hold.
  const make = first.webMm < process.leastWebMm / 2 - 1e-9 ? errorFinding : warningFinding;
  return [
    make(about.code, about.path, {
      value: `${mm(first.webMm)} between the ${where} and ${about.to}${more}`,
      allowed: `instead of at least ${mm(process.leastWebMm)} for ${process.label}`,
      remedy: 'move the hole inward or make it smaller',
    }),
  ];
}

function narrowFindings(holes: readonly Hole[], path: string, process: Process): Finding[] {
  const hole = holes.find((h) => !(h.diameterMm > (process.compensateKerf ? process.kerfMm : 0)));
  if (hole === undefined) return [];
  return [
    errorFinding('hole-below-kerf', path, {
      value: `${hole.purpose} hole of ${mm(hole.diameterMm)} at ${spot(hole.centre)}`,
      allowed: `is not wider than the kerf of ${mm(process.kerfMm)}`,
      remedy: 'drill it, or choose a process with a narrower kerf',
    }),
  ];
}

function outsideFinding(hole: Hole, path: string, count: number): Finding {
  const more = count > 1 ? `, and ${count - 1} more` : '';
  return errorFinding('hole-outside', path, {
    value: `${hole.purpose} hole of ${mm(hole.diameterMm)} at ${spot(hole.centre)}${more}`,
    allowed: 'does not lie wholly inside the part',
    remedy: 'enlarge the part or move the hole',
  });
}

function holeBox({ centre, diameterMm }: Hole): Bounds {
  return grownBox({ minX: centre.x, minY: centre.y, maxX: centre.x, maxY: centre.y }, diameterMm / 2);
}
