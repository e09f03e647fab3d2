import { DrawingFault } from './fault.ts';

/** An element of an SVG file as its tags open and close. */
export interface OpenTag {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  /** True for `<path/>`, which closes itself. */
  readonly empty: boolean;
}

const NAME = String.raw`[A-Za-z_][\w:.-]*`;
const ATTRIBUTE = new RegExp(String.raw`\s+(${NAME})\s*=\s*(?:"([^"<]*)"|'([^'<]*)')`, 'y');
const OPEN = new RegExp(`<(${NAME})`, 'y');
const CLOSE = new RegExp(String.raw`</(${NAME})\s*>`, 'y');
const END = /\s*(\/?)>/y;
/** Comments, processing instructions, CDATA and a document type without a subset of its own. */
const ASIDE = /<!--[\s\S]*?-->|<\?[\s\S]*?\?>|<!\[CDATA\[[\s\S]*?\]\]>|<!DOCTYPE[^[>]*>/y;

function at(pattern: RegExp, text: string, place: number): RegExpExecArray | null {
  pattern.lastIndex = place;
  return pattern.exec(text);
}

function broken(text: string, place: number): DrawingFault {
  const line = text.slice(0, place).split('\n').length;
  return new DrawingFault('not-svg', `is not an SVG file: line ${line} is broken`, 'save the drawing as plain SVG');
}

function openTag(text: string, place: number): { readonly tag: OpenTag; readonly next: number } {
  const name = at(OPEN, text, place);
  if (name === null) throw broken(text, place);
  let next = place + name[0].length;
  const attributes = new Map<string, string>();
  for (let one = at(ATTRIBUTE, text, next); one !== null; one = at(ATTRIBUTE, text, next)) {
    attributes.set(one[1] ?? '', one[2] ?? one[3] ?? '');
    next += one[0].length;
  }
  const end = at(END, text, next);
  if (end === null) throw broken(text, next);
  return { tag: { name: name[1] ?? '', attributes, empty: end[1] === '/' }, next: next + end[0].length };
}

/** Walks the tags of an SVG text in order, with what is open around each. Throws a DrawingFault where the tags do not nest. */
export function walkTags(text: string, visit: (tag: OpenTag, around: readonly OpenTag[]) => void): void {
  const open: OpenTag[] = [];
  for (let place = text.indexOf('<'); place >= 0; place = text.indexOf('<', place)) {
    const aside = at(ASIDE, text, place);
    const close = at(CLOSE, text, place);
    if (aside !== null) place += aside[0].length;
    else if (close !== null) {
      if (open.pop()?.name !== close[1]) throw broken(text, place);
      place += close[0].length;
    } else {
      const { tag, next } = openTag(text, place);
      visit(tag, open);
      if (!tag.empty) open.push(tag);
      place = next;
    }
  }
  if (open.length > 0) throw broken(text, text.length);
}
