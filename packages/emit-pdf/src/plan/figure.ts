import { heightOf, widthOf } from '@sheetwave/drawings';
import type { PlanFigure } from '@sheetwave/plan';
import type { PdfNode } from '../pdf-file.ts';
import { penOn } from '../pdf-pen.ts';
import { CAPTION } from './look.ts';
import type { Piece, Spot } from './piece.ts';
import { later, words } from './words.ts';

/** A drawing as large as it is, or smaller where it does not fit, with its caption below. */
export function figurePieces(
  figure: PlanFigure,
  of: { readonly parent: () => PdfNode; readonly widthMm: number; readonly mostHeightMm: number },
): readonly Piece[] {
  const { box } = figure;
  const caption = (text: string) =>
    words(text, { look: CAPTION, widthMm: of.widthMm, beforeMm: 0.8, node: later(() => of.parent().child('Caption')) });
  const room = of.mostHeightMm - caption(figure.caption).length * CAPTION.lineMm - CAPTION.lineMm;
  const factor = Math.min(1, of.widthMm / widthOf(box), room / heightOf(box));
  const smaller = figure.toScale && factor < 1 - 1e-9 ? ' Drawn smaller than its scale, to fit the page.' : '';
  const drawing: Piece = {
    heightMm: heightOf(box) * factor,
    beforeMm: 3,
    keepsNext: true,
    paint: (spot) => drawFigure(spot, figure, { factor, parent: of.parent }),
  };
  return [drawing, ...caption(figure.caption + smaller)];
}

function drawFigure(
  spot: Spot,
  figure: PlanFigure,
  of: { readonly factor: number; readonly parent: () => PdfNode },
): void {
  const { box } = figure;
  const at = { x: spot.left, y: spot.pageHeightMm - spot.top };
  const onPage = {
    minX: at.x,
    minY: at.y,
    maxX: at.x + widthOf(box) * of.factor,
    maxY: at.y + heightOf(box) * of.factor,
  };
  const node = of.parent().child('Figure', { alt: figure.alt, box: onPage });
  const pen = penOn({
    page: spot.page,
    toPage: ({ x, y }) => ({ x: x - box.minX, y: box.maxY - y }),
    window: box,
  });
  spot.page.tagged(node, () => spot.page.scaled(at, of.factor, () => figure.draw(pen)));
}
