import type { Point } from '@sheetwave/geometry';
import { type Circle, circlesOf, type DrawnPage } from './pdf-trace.ts';

/** A page with where it goes when all pages are laid together: add `shift` to what is on it. */
export interface LaidPage {
  readonly page: DrawnPage;
  readonly shift: Point;
}

/** Shade of the register marks; everything of the drawing itself is black. */
const isMark = ({ shade }: Circle): boolean => Math.abs(shade - 1 / 3) < 0.01;

/** The register marks of a page by their names, as a person reads them: the name beside the cross. */
export function registerMarks(page: DrawnPage): ReadonlyMap<string, Point> {
  return new Map(
    circlesOf(page)
      .filter(isMark)
      .map(({ at }) => {
        const name = page.texts.find((text) => Math.hypot(text.at.x - at.x, text.at.y - at.y) < 1.5)?.words ?? '';
        return [name, at] as const;
      }),
  );
}

/**
 * Lays pages over each other by their marks, as a person does with paper: each one onto any that already lies, by two marks of the
 * same names. Throws when a page shares no two marks with the others, or when it would have to be stretched by more than 0.01 mm.
 */
export function joinPages(pages: readonly DrawnPage[]): readonly LaidPage[] {
  const laid: LaidPage[] = pages.slice(0, 1).map((page) => ({ page, shift: { x: 0, y: 0 } }));
  const waiting = pages.slice(1);
  while (waiting.length > 0) {
    const index = waiting.findIndex((page) => laid.some((one) => sharedNames(page, one.page).length >= 2));
    const [page] = index < 0 ? [] : waiting.splice(index, 1);
    const onto = laid.find((one) => page !== undefined && sharedNames(page, one.page).length >= 2);
    if (page === undefined || onto === undefined) throw new Error('a page that shares no two marks with the others');
    laid.push({ page, shift: shiftOnto(page, onto) });
  }
  return laid;
}

function sharedNames(a: DrawnPage, b: DrawnPage): readonly string[] {
  const others = registerMarks(b);
  return [...registerMarks(a).keys()].filter((name) => others.has(name));
}

function shiftOnto(page: DrawnPage, onto: LaidPage): Point {
  const [mine, theirs] = [registerMarks(page), registerMarks(onto.page)];
  const shifts = sharedNames(page, onto.page).map((name) => {
    const [from, to] = [mine.get(name), theirs.get(name)];
    if (from === undefined || to === undefined) throw new Error(`no mark ${name}`);
    return { x: to.x + onto.shift.x - from.x, y: to.y + onto.shift.y - from.y };
  });
  const [first] = shifts;
  if (first === undefined) throw new Error('no shared marks');
  const apart = Math.max(...shifts.map(({ x, y }) => Math.hypot(x - first.x, y - first.y)));
  if (apart > 0.01) throw new Error(`marks that do not meet by ${apart} mm`);
  return first;
}

/** Holes that a page shows whole, in the place that the joined pages give them. */
export function holesOnPage({ page, shift }: LaidPage): readonly Circle[] {
  const { clip } = page;
  return circlesOf(page)
    .filter((circle) => {
      const radius = circle.diameterMm / 2;
      const { x, y } = circle.at;
      const seen =
        clip === undefined ||
        (x - radius >= clip.minX && x + radius <= clip.maxX && y - radius >= clip.minY && y + radius <= clip.maxY);
      return !isMark(circle) && seen;
    })
    .map((circle) => ({ ...circle, at: { x: circle.at.x + shift.x, y: circle.at.y + shift.y } }));
}
