import { plain } from '@sheetwave/drawings';
import { type BoardPart, bounds, type CopperPiece, contourPieces, type Point } from '@sheetwave/geometry';
import { type PlanTable, table } from '../document.ts';
import { contourDimensions } from './contour-dimensions.ts';

const HEAD = ['side', 'copper', 'count', 'width', 'height', 'centre from left', 'centre from below'];
/** More alike pieces than this: the first ones, and how many there are. */
const MOST_PLACES = 8;
const MOST_SHAPES = 40;

interface Alike {
  readonly side: 'top' | 'bottom';
  readonly piece: CopperPiece;
  readonly centres: readonly Point[];
}

/** Pieces of copper of one purpose and size, with their places. What is etched is in the films and the Gerber files; this is to measure by. */
export function copperTables({ copper }: BoardPart, datum: Point): readonly PlanTable[] {
  const groups = [...alike('top', copper.top, datum), ...alike('bottom', copper.bottom, datum)];
  if (groups.length === 0) return [];
  const rows = groups.slice(0, MOST_SHAPES).map(rowOf);
  const more = groups.length - MOST_SHAPES;
  const rest = more > 0 ? [['', `${more} more sizes: see the films`, '', '', '', '', '']] : [];
  return [table('Copper', HEAD, [...rows, ...rest])];
}

function alike(side: 'top' | 'bottom', pieces: readonly CopperPiece[], datum: Point): readonly Alike[] {
  const groups = new Map<string, { readonly piece: CopperPiece; readonly centres: Point[] }>();
  for (const piece of pieces) {
    const box = bounds(piece.contour);
    const centre = { x: (box.minX + box.maxX) / 2 - datum.x, y: (box.minY + box.maxY) / 2 - datum.y };
    const key = [piece.purpose, piece.polarity, ...sizeOf(piece), contourPieces(piece.contour).length].join(' ');
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { piece, centres: [centre] });
    else group.centres.push(centre);
  }
  return [...groups.values()].map((group) => ({ side, ...group }));
}

function rowOf({ side, piece, centres }: Alike): readonly string[] {
  const [width, height] = sizeOf(piece);
  const shown = centres.slice(0, MOST_PLACES);
  const dots = centres.length > MOST_PLACES ? '; …' : '';
  const places = (axis: 'x' | 'y'): string => shown.map((centre) => plain(centre[axis])).join('; ') + dots;
  return [side, wordsOf(piece), String(centres.length), width, height, places('x'), places('y')];
}

function sizeOf({ contour }: CopperPiece): readonly [string, string] {
  const box = bounds(contour);
  return [plain(box.maxX - box.minX), plain(box.maxY - box.minY)];
}

const PURPOSES = {
  patch: 'patch',
  line: 'line',
  land: 'land',
  plane: 'ground plane',
  clearance: 'clearance',
} as const;

function wordsOf(piece: CopperPiece): string {
  const shape = contourDimensions(piece.contour, { x: 0, y: 0 });
  const kind = { rectangle: '', circle: ', round', corners: ', size over all' }[shape.kind];
  return `${PURPOSES[piece.purpose]}${kind}${piece.polarity === 'clear' ? ', etched away' : ''}`;
}
