import { plain } from '@sheetwave/drawings';
import type { Outline, Point } from '@sheetwave/geometry';
import { type PlanTable, table } from '../document.ts';
import { type ContourDimensions, type Corner, contourDimensions } from './contour-dimensions.ts';

/** More corners than a person would mark out by numbers: the template and the cut file have them all. */
const MOST_CORNERS = 160;

/** The dimensions of the outside and of every opening. Numbers are in mm, to a hundredth. */
export function outlineTables(outline: Outline, datum: Point, id: string): readonly PlanTable[] {
  const all = [
    { name: 'outside', dimensions: contourDimensions(outline.outer, datum) },
    ...outline.cutouts.map((cutout, index) => ({
      name: outline.cutouts.length === 1 ? 'opening' : `opening ${index + 1}`,
      dimensions: contourDimensions(cutout, datum),
    })),
  ];
  const sized = all.flatMap(({ name, dimensions }) => {
    const row = sizeRow(name, dimensions);
    return row === undefined ? [] : [row];
  });
  const drawn = all.flatMap(({ name, dimensions }) =>
    dimensions.kind === 'corners' ? [cornerTable(name, dimensions.corners, id)] : [],
  );
  return [...(sized.length > 0 ? [table('Outline', SIZE_HEAD, sized)] : []), ...drawn];
}

const SIZE_HEAD = ['what', 'shape', 'width or diameter', 'height', 'corner radius', 'from left', 'from below'];

/** Places are those of the lower left corner of a rectangle, and of the centre of a circle. */
function sizeRow(name: string, size: ContourDimensions): readonly string[] | undefined {
  switch (size.kind) {
    case 'rectangle':
      return [
        name,
        'rectangle',
        plain(size.widthMm),
        plain(size.heightMm),
        plain(size.cornerRadiusMm),
        plain(size.x),
        plain(size.y),
      ];
    case 'circle':
      return [name, 'circle', plain(size.diameterMm), '', '', plain(size.x), plain(size.y)];
    case 'corners':
      return undefined;
  }
}

const CORNER_HEAD = ['corner', 'from left', 'from below', 'then', 'radius', 'centre from left', 'centre from below'];

export function cornerTable(name: string, corners: readonly Corner[], id: string): PlanTable {
  if (corners.length > MOST_CORNERS)
    return table(
      `Corners of the ${name}`,
      ['corners', 'where they are given'],
      [[String(corners.length), `too many to mark out by numbers: use the template or the cut file of ${id}`]],
    );
  const rows = corners.map((corner, index) => cornerRow(corner, index + 1));
  const isStraight = corners.every(({ goesOn }) => goesOn === 'line');
  const caption = `Corners of the ${name}, in order around it${isStraight ? ', straight from each to the next' : ''}`;
  const shown = isStraight ? 3 : CORNER_HEAD.length;
  return table(
    caption,
    CORNER_HEAD.slice(0, shown),
    rows.map((row) => row.slice(0, shown)),
  );
}

function cornerRow({ x, y, goesOn }: Corner, number: number): readonly string[] {
  const at = [String(number), plain(x), plain(y)];
  if (goesOn === 'line') return [...at, 'straight', '', '', ''];
  const turn = goesOn.sense === 'ccw' ? 'arc to the left' : 'arc to the right';
  return [...at, turn, plain(goesOn.radiusMm), plain(goesOn.centre.x), plain(goesOn.centre.y)];
}
