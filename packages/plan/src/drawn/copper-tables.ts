import { plain } from '@sheetwave/drawings';
import { type BoardPart, bounds, type CopperPiece, type Point } from '@sheetwave/geometry';
import { type PlanTable, table } from '../document.ts';
import { type ContourDimensions, contourDimensions } from './contour-dimensions.ts';
import { cornerTable } from './outline-tables.ts';

const HEAD = ['shape', 'side', 'copper', 'count', 'width', 'height', 'lower left from left', 'from below'];
/** More alike pieces than this: the first ones, and how many there are. */
const MOST_PLACES = 8;
const MOST_SHAPES = 40;
/** Shapes whose corners are given one by one; the films and the copper files have all. */
const MOST_CORNERED = 8;

interface Alike {
  /** `K1`: pieces of one shape, wherever they are. */
  readonly name: string;
  readonly side: 'top' | 'bottom';
  readonly piece: CopperPiece;
  /** From the lower left corner of the box around it. */
  readonly shape: ContourDimensions;
  readonly places: readonly Point[];
}

/** Pieces of copper of one purpose and shape, with their places, and the corners of what is no rectangle and no circle. */
export function copperTables({ copper, id }: BoardPart, datum: Point): readonly PlanTable[] {
  const groups = [...alike('top', copper.top, datum), ...alike('bottom', copper.bottom, datum)].map(
    (group, index): Alike => ({ ...group, name: `K${index + 1}` }),
  );
  if (groups.length === 0) return [];
  const rows = groups.slice(0, MOST_SHAPES).map(rowOf);
  const more = groups.length - MOST_SHAPES;
  const rest = more > 0 ? [['', '', `${more} more shapes: see the films`, '', '', '', '', '']] : [];
  return [table('Copper', HEAD, [...rows, ...rest]), ...cornered(groups, id)];
}

function cornered(groups: readonly Alike[], id: string): readonly PlanTable[] {
  return groups
    .flatMap(({ name, shape, piece }) =>
      shape.kind === 'corners' ? [{ name: `copper ${name}, ${PURPOSES[piece.purpose]}`, corners: shape.corners }] : [],
    )
    .slice(0, MOST_CORNERED)
    .map(({ name, corners }) => cornerTable(`${name}, from its own lower left`, corners, id));
}

type Unnamed = Omit<Alike, 'name'>;

function alike(side: Alike['side'], pieces: readonly CopperPiece[], datum: Point): readonly Unnamed[] {
  const groups = new Map<string, Omit<Unnamed, 'places'> & { readonly places: Point[] }>();
  for (const piece of pieces) {
    const { minX, minY } = bounds(piece.contour);
    const shape = contourDimensions(piece.contour, { x: minX, y: minY });
    const place = { x: minX - datum.x, y: minY - datum.y };
    const key = [piece.purpose, piece.polarity, printed(shape)].join(' ');
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { side, piece, shape, places: [place] });
    else group.places.push(place);
  }
  return [...groups.values()];
}

/** A shape by what is printed of it: pieces with the same words are the same to a builder. */
const printed = (shape: ContourDimensions): string =>
  JSON.stringify(shape, (_, value) => (typeof value === 'number' ? plain(value) : value));

function rowOf({ name, side, piece, shape, places }: Alike): readonly string[] {
  const box = bounds(piece.contour);
  const shown = places.slice(0, MOST_PLACES);
  const dots = places.length > MOST_PLACES ? '; …' : '';
  const at = (axis: 'x' | 'y'): string => shown.map((place) => plain(place[axis])).join('; ') + dots;
  const size = [plain(box.maxX - box.minX), plain(box.maxY - box.minY)];
  return [name, side, wordsOf(piece, shape), String(places.length), ...size, at('x'), at('y')];
}

const PURPOSES = {
  patch: 'patch',
  line: 'line',
  land: 'land',
  plane: 'ground plane',
  clearance: 'clearance',
} as const;

function wordsOf(piece: CopperPiece, shape: ContourDimensions): string {
  const kind = { rectangle: '', circle: ', round', corners: ', corners below' }[shape.kind];
  return `${PURPOSES[piece.purpose]}${kind}${piece.polarity === 'clear' ? ', etched away' : ''}`;
}
