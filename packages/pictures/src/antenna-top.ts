import { grow, type Pen, union, wholeMillimetres } from '@sheetwave/drawings';
import type { Assembly, Bounds } from '@sheetwave/geometry';
import { calloutsBox, drawCallouts, type PlacedCallout, placeCallouts } from './callouts.ts';
import { type Dimension, dimensionBox, drawDimension } from './dimension.ts';
import { PAPER } from './palette.ts';
import type { Picture } from './picture.ts';
import { drawPictureTitle, type PictureTitle, pictureTitleBox } from './picture-title.ts';
import { drawPolarisation, polarisationBox } from './polarisation.ts';
import { calloutsOf } from './top-callouts.ts';
import { dimensionsOf } from './top-dimensions.ts';
import { drawFeedPoints, drawParts } from './top-parts.ts';
import { DRAWN_MM, type View, viewOf } from './top-view.ts';

/** The finished antenna as seen from in front, with names, sizes and pitches. */
export function antennaTop(assembly: Assembly, drawnMm = DRAWN_MM): Picture {
  const view = viewOf(assembly, drawnMm);
  const callouts = placeCallouts(calloutsOf(view), view.reflector.maxX + 16);
  const dimensions = dimensionsOf(view);
  return {
    page: pageOf(view, callouts, dimensions),
    title: `${assembly.design.name}: the antenna seen from the front`,
    about: `Revision ${assembly.design.revision}. Dimensions in mm; not a template.`,
    draw: (pen) => drawPicture(pen, { view, callouts, dimensions }),
  };
}

function titleOf(view: View): PictureTitle {
  const { design } = view.assembly;
  return {
    at: { x: view.reflector.minX, y: view.reflector.maxY + (design.lattice.columns > 1 ? 22 : 14) },
    name: design.name,
    words: `seen from the front, revision ${design.revision}, dimensions in mm`,
  };
}

function pageOf(view: View, callouts: readonly PlacedCallout[], dimensions: readonly Dimension[]): Bounds {
  const column = calloutsBox(callouts) ?? view.reflector;
  const all = [pictureTitleBox(titleOf(view)), column, polarisationBox(view), ...dimensions.map(dimensionBox)];
  return wholeMillimetres(grow(all.reduce(union, view.reflector), 8));
}

function drawPicture(
  pen: Pen,
  what: { readonly view: View; readonly callouts: readonly PlacedCallout[]; readonly dimensions: readonly Dimension[] },
): void {
  const { view } = what;
  pen.box(pageOf(view, what.callouts, what.dimensions), { fill: PAPER, stroke: 'none', id: 'paper' });
  drawPictureTitle(pen, titleOf(view));
  drawParts(pen, view);
  drawFeedPoints(pen, view);
  const lines = pen.group('dimensions');
  for (const dimension of what.dimensions) drawDimension(lines, dimension);
  drawPolarisation(pen, view);
  drawCallouts(pen, what.callouts);
}
