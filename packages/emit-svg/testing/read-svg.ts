import { type Anchor, textBox } from '@sheetwave/drawings';
import type { Bounds, EmittedFile } from '@sheetwave/geometry';

/** What a test reads back from a file: by plain text search, not with the library that wrote it. Page coordinates, y down. */
export interface ReadSvg {
  readonly text: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly viewBox: readonly number[];
  readonly circles: readonly { readonly id: string; readonly x: number; readonly y: number; readonly r: number }[];
  readonly texts: readonly { readonly words: string; readonly box: Bounds }[];
  /** Every end point of every path. */
  readonly points: readonly { readonly x: number; readonly y: number }[];
  attribute(id: string, name: string): string;
}

export function readSvg(file: EmittedFile): ReadSvg {
  const text = new TextDecoder().decode(file.bytes);
  const [root = ''] = /<svg [^>]*>/.exec(text) ?? [];
  return {
    text,
    widthMm: Number(/^([\d.]+)mm$/.exec(value(root, 'width'))?.[1]),
    heightMm: Number(/^([\d.]+)mm$/.exec(value(root, 'height'))?.[1]),
    viewBox: value(root, 'viewBox').split(' ').map(Number),
    circles: [...text.matchAll(/<circle [^>]*>/g)].map(([tag]) => ({
      id: value(tag, 'id'),
      x: Number(value(tag, 'cx')),
      y: Number(value(tag, 'cy')),
      r: Number(value(tag, 'r')),
    })),
    texts: [...text.matchAll(/(<text [^>]*>)([^<]*)<\/text>/g)]
      .filter(([, tag = '']) => value(tag, 'class') !== 'rim')
      .map(([, tag = '', words = '']) => ({ words: plainWords(words), box: boxOf(tag, plainWords(words)) })),
    points: [...text.matchAll(/ d="([^"]*)"/g)].flatMap(([, data = '']) => endPoints(data)),
    attribute: (id, name) => value(new RegExp(`<[a-z]+ [^>]*id="${id}"[^>]*>`).exec(text)?.[0] ?? '', name),
  };
}

function value(tag: string, name: string): string {
  return new RegExp(` ${name}="([^"]*)"`).exec(tag)?.[1] ?? '';
}

const plainWords = (words: string): string =>
  words
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&apos;', "'")
    .replaceAll('&amp;', '&');

/** The box in page coordinates: that of the drawing turned upside down. */
function boxOf(tag: string, words: string): Bounds {
  const at = { x: Number(value(tag, 'x')), y: -Number(value(tag, 'y')) };
  const box = textBox(words, at, {
    sizeMm: Number(value(tag, 'font-size')),
    bold: value(tag, 'font-weight') === 'bold',
    anchor: (value(tag, 'text-anchor') || 'start') as Anchor,
    upright: value(tag, 'transform') === '',
  });
  return { minX: box.minX, maxX: box.maxX, minY: -box.maxY, maxY: -box.minY };
}

/** The last two numbers of every command that has any. */
function endPoints(data: string): readonly { readonly x: number; readonly y: number }[] {
  return [...data.matchAll(/[MLA]([^MLAZ]*)/g)].map(([, numbers = '']) => {
    const [x = Number.NaN, y = Number.NaN] = numbers.trim().split(' ').map(Number).slice(-2);
    return { x, y };
  });
}

/** Pairs of lines of text that cover one another. */
export function overlappingTexts(svg: ReadSvg): readonly string[] {
  const out: string[] = [];
  svg.texts.forEach((a, index) => {
    for (const b of svg.texts.slice(index + 1)) {
      const apart =
        a.box.maxX <= b.box.minX || b.box.maxX <= a.box.minX || a.box.maxY <= b.box.minY || b.box.maxY <= a.box.minY;
      if (!apart) out.push(`${a.words} / ${b.words}`);
    }
  });
  return out;
}

/** What lies outside the page, in words. */
export function outsidePage(svg: ReadSvg): readonly string[] {
  const inside = (x: number, y: number): boolean => x >= 0 && y >= 0 && x <= svg.widthMm && y <= svg.heightMm;
  const texts = svg.texts.filter(({ box }) => !inside(box.minX, box.minY) || !inside(box.maxX, box.maxY));
  const circles = svg.circles.filter(({ x, y, r }) => !inside(x - r, y - r) || !inside(x + r, y + r));
  const points = svg.points.filter(({ x, y }) => !inside(x, y));
  return [
    ...texts.map(({ words }) => words),
    ...circles.map(({ id, x, y }) => `circle ${id} at ${x} ${y}`),
    ...points.map(({ x, y }) => `point ${x} ${y}`),
  ];
}
