import type { Pen, Style } from '@sheetwave/drawings';

/** The style of each polygon that is drawn, in order; everything else is dropped. */
export function paintedPolygons(draw: (pen: Pen) => void): readonly Style[] {
  const styles: Style[] = [];
  const none = () => undefined;
  const pen: Pen = {
    group: () => pen,
    line: none,
    lines: none,
    polyline: none,
    polygon: (_, style = {}) => void styles.push(style),
    polygons: none,
    circle: none,
    box: none,
    contours: none,
    text: none,
  };
  draw(pen);
  return styles;
}
