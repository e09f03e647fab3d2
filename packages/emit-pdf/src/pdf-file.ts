import type { Bounds, Point } from '@sheetwave/geometry';
import PDFDocument from 'pdfkit';
import { type Face, fontFile } from './font-files.ts';
import type { PathCommand } from './path-commands.ts';
import { type LaidFont, setLettersOneByOne } from './plain-layout.ts';

/** ISO 32000-1 section 8.3.2.3: the default unit is 1/72 inch. */
const POINTS_PER_MM = 72 / 25.4;

/** How a path is painted. Without `stroke` or `fill` that part is not painted. Widths and dashes in mm. */
export interface PathLook {
  readonly stroke: string | undefined;
  readonly fill: string | undefined;
  readonly widthMm: number;
  readonly dash: readonly number[];
  readonly cap: 'butt' | 'round';
  readonly join: 'miter' | 'round';
  readonly opacity: number;
  readonly fillOpacity: number;
}

export interface WordsLook {
  readonly sizeMm: number;
  readonly face: Face;
  readonly colour: string;
  readonly anchor: 'start' | 'middle' | 'end';
  /** Quarter turn, to read from below upwards. */
  readonly upwards: boolean;
  /** Thickness of a rim around the letters in their own colour; 0 for none. */
  readonly rimMm: number;
}

/** A page in mm, y down from its upper left corner. */
export interface PdfPage {
  path(commands: readonly PathCommand[], look: PathLook): void;
  words(at: Point, words: string, look: WordsLook): void;
  /** Draws with everything outside `box` left out. */
  within(box: Bounds, draw: () => void): void;
  /** Draws in coordinates that begin at `at` and are `factor` times as large. */
  scaled(at: Point, factor: number, draw: () => void): void;
  /** What is drawn belongs to a node of the structure. Never one within the other. */
  tagged(node: PdfNode, draw: () => void): void;
  /** What is drawn says nothing by itself: frames, rules, feet of pages. */
  artifact(draw: () => void): void;
}

/** Standard structure types (ISO 32000-1 section 14.8.4) that are used. */
export type PdfTag =
  | 'Sect'
  | 'H1'
  | 'H2'
  | 'H3'
  | 'P'
  | 'L'
  | 'LI'
  | 'Lbl'
  | 'LBody'
  | 'Table'
  | 'TR'
  | 'TH'
  | 'TD'
  | 'Caption'
  | 'Figure'
  | 'TOC'
  | 'TOCI';

/** What a node says beside its place in the order. */
export interface PdfNodeAbout {
  /** For a figure: what it shows. */
  readonly alt?: string;
  /** For a figure: where it is on the page that is being drawn, mm, y down. */
  readonly box?: Bounds;
  readonly scope?: 'Column' | 'Row';
}

/** A piece of the document's structure: what a reading program reads, in its order. Nodes are added in reading order. */
export interface PdfNode {
  child(tag: PdfTag, about?: PdfNodeAbout): PdfNode;
}

export interface PdfFile {
  page(size: { readonly widthMm: number; readonly heightMm: number }): PdfPage;
  /** The whole document. */
  readonly root: PdfNode;
  /** An entry of the outline that leads to the page last begun; `parent` puts it under another. */
  bookmark(title: string, parent?: Bookmark): Bookmark;
  /** Signs of a text that the faces cannot print, each once. */
  missing(text: string): readonly string[];
  /** The finished file. No page can be added afterwards. */
  bytes(): Uint8Array;
}

/** An entry of the outline. */
export interface Bookmark {
  readonly entry: Outline;
}

/**
 * An empty document, the only file that touches the PDF library. Its bytes depend on what is drawn and on `date` alone: streams
 * are stored as they are, because a compressor may pack them differently on another machine. Viewers are told not to scale
 * (ISO 32000-1 table 150, PrintScaling) and to show the title.
 *
 * @throws Error when `date` is not an ISO 8601 date.
 */
export function openPdf(about: {
  readonly title: string;
  readonly subject: string;
  readonly date: string | undefined;
}): PdfFile {
  const doc = new PDFDocument({
    pdfVersion: '1.7',
    lang: 'en-GB',
    tagged: true,
    displayTitle: true,
    compress: false,
    autoFirstPage: false,
    font: '',
    info: {
      Title: about.title,
      Subject: about.subject,
      Creator: 'sheetwave',
      Producer: 'sheetwave',
      CreationDate: dateOf(about.date),
      ModDate: dateOf(about.date),
    },
  });
  if (about.date === undefined) dropDates(doc);
  forbidScaling(doc);
  leaveOutMetadata(doc);
  for (const face of ['regular', 'bold'] as const)
    doc.registerFont(face, (READ_FONTS.get(face) ?? fontFile(face)) as unknown as ArrayBuffer);
  const top = doc.struct('Document');
  doc.addStructure(top);
  return {
    page: (size) => addPage(doc, size),
    root: nodeOn(doc, top),
    bookmark: (title, parent) => ({ entry: (parent?.entry ?? outlineOf(doc)).addItem(title, { expanded: false }) }),
    missing: (text) => missingIn(doc, text),
    bytes: () => finish(doc),
  };
}

/** Faces as the library has read them: every document takes its own subset of one, but its tables are read once. */
const READ_FONTS = new Map<Face, LaidFont['font']>();

type Struct = ReturnType<Doc['struct']>;

/** What is used of the library's outline. */
interface Outline {
  addItem(title: string, options: { readonly expanded: boolean }): Outline;
}

const outlineOf = (doc: Doc): Outline => (doc as unknown as { readonly outline: Outline }).outline;

/** The library's element behind a node. */
const ELEMENTS = new WeakMap<PdfNode, Struct>();

function nodeOn(doc: Doc, element: Struct): PdfNode {
  const node: PdfNode = {
    child: (tag, about = {}) => {
      const child = doc.struct(tag, optionsOf(about) as never);
      element.add(child);
      return nodeOn(doc, child);
    },
  };
  ELEMENTS.set(node, element);
  return node;
}

function optionsOf({ alt, box, scope }: PdfNodeAbout) {
  const points = box && [box.minX, box.minY, box.maxX, box.maxY].map((mm) => mm * POINTS_PER_MM);
  return { ...(alt === undefined ? {} : { alt }), ...(points && { bbox: points }), ...(scope && { scope }) };
}

/** Printed for a sign that a face lacks: the face's own mark for that is an empty box, which no one can tell from a drawn one. */
const REPLACEMENT = '?';

/** Signs that one of the faces lacks. */
function missingIn(doc: Doc, text: string): readonly string[] {
  const faces = (['regular', 'bold'] as const).map((face) => fontOf(doc, face));
  return [...new Set(text)].filter((sign) => faces.some((font) => !hasSign(font, sign)));
}

function fontOf(doc: Doc, face: Face): LaidFont['font'] {
  return laidFont(doc, face).font;
}

function laidFont(doc: Doc, face: Face): LaidFont {
  doc.font(face);
  const laid = (doc as unknown as Inside)._font;
  READ_FONTS.set(face, laid.font);
  return laid;
}

/** Controls and blanks leave no ink and need none. */
const NO_INK = /^[\s\p{Cc}\p{Cf}]$/u;

function hasSign(font: LaidFont['font'], sign: string): boolean {
  return NO_INK.test(sign) || font.hasGlyphForCodePoint(sign.codePointAt(0) ?? 0);
}

/** The words with a plain sign in place of each that the face in use lacks. */
function printable(font: LaidFont['font'], words: string): string {
  if (/^[\x20-\x7e]*$/.test(words)) return words;
  return [...words].map((sign) => (hasSign(font, sign) ? sign : REPLACEMENT)).join('');
}

type Doc = InstanceType<typeof PDFDocument>;

/** Without a date the library still wants one for the file's identifier: the same one each time. */
function dateOf(date: string | undefined): Date {
  const at = new Date(date === undefined ? '2000-01-01T00:00:00Z' : `${date}T00:00:00Z`);
  const written = date === undefined || /^\d{4}-\d{2}-\d{2}$/.test(date);
  if (!written || Number.isNaN(at.getTime())) throw new Error(`not an ISO 8601 date: ${date}`);
  return at;
}

function dropDates(doc: Doc): void {
  delete doc.info.CreationDate;
  delete doc.info.ModDate;
}

/** What the library keeps from its types. */
interface Inside {
  readonly _font: LaidFont;
  endMetadata: () => void;
  readonly _root: { readonly data: { readonly ViewerPreferences: { readonly data: Record<string, unknown> } } };
}

function forbidScaling(doc: Doc): void {
  (doc as unknown as Inside)._root.data.ViewerPreferences.data.PrintScaling = 'None';
}

/** The library writes names into its XML metadata without escaping them. All of it is in the information dictionary anyway. */
function leaveOutMetadata(doc: Doc): void {
  (doc as unknown as Inside).endMetadata = () => undefined;
}

function addPage(doc: Doc, size: { readonly widthMm: number; readonly heightMm: number }): PdfPage {
  doc.addPage({ size: [size.widthMm * POINTS_PER_MM, size.heightMm * POINTS_PER_MM], margin: 0 });
  doc.scale(POINTS_PER_MM);
  return {
    path: (commands, look) => drawPath(doc, commands, look),
    words: (at, words, look) => drawWords(doc, at, { words, look }),
    within: (box, draw) => {
      doc.save();
      doc.rect(box.minX, box.minY, box.maxX - box.minX, box.maxY - box.minY).clip();
      draw();
      doc.restore();
    },
    scaled: (at, factor, draw) => {
      doc.save();
      doc.translate(finite(at.x), finite(at.y)).scale(finite(factor));
      draw();
      doc.restore();
    },
    tagged: (node, draw) => {
      const element = ELEMENTS.get(node);
      if (element === undefined) throw new Error('a node of another document');
      const content = doc.markStructureContent(
        (element as unknown as { readonly dictionary: { data: { S: string } } }).dictionary.data.S as never,
      );
      draw();
      doc.endMarkedContent();
      element.add(content);
    },
    artifact: (draw) => {
      doc.markContent('Artifact', {} as never);
      draw();
      doc.endMarkedContent();
    },
  };
}

/** The state comes first: between the steps of a path and its painting PDF allows none (ISO 32000-1 figure 9). */
function drawPath(doc: Doc, commands: readonly PathCommand[], look: PathLook): void {
  const { stroke, fill } = look;
  if (commands.length === 0 || (stroke === undefined && fill === undefined)) return;
  doc.save();
  doc.opacity(look.opacity);
  if (fill !== undefined) doc.fillColor(fill, look.opacity * look.fillOpacity);
  if (stroke !== undefined) setStroke(doc, stroke, look);
  for (const command of commands) step(doc, command);
  if (fill !== undefined && stroke !== undefined) doc.fillAndStroke(fill, stroke, 'even-odd');
  else if (fill !== undefined) doc.fill('even-odd');
  else doc.stroke();
  doc.restore();
}

function setStroke(doc: Doc, stroke: string, look: PathLook): void {
  doc.strokeColor(stroke, look.opacity).lineWidth(look.widthMm).lineCap(look.cap).lineJoin(look.join);
  const [first] = look.dash;
  if (first !== undefined) doc.dash([...look.dash] as unknown as number, {});
}

function step(doc: Doc, command: PathCommand): void {
  if (command.kind === 'close') doc.closePath();
  else if (command.kind === 'move') doc.moveTo(finite(command.to.x), finite(command.to.y));
  else if (command.kind === 'line') doc.lineTo(finite(command.to.x), finite(command.to.y));
  else {
    const { first, second, to } = command;
    doc.bezierCurveTo(first.x, first.y, second.x, second.y, finite(to.x), finite(to.y));
  }
}

function finite(value: number): number {
  if (!Number.isFinite(value)) throw new Error(`${value} cannot be drawn: not a finite number`);
  return value;
}

/** Letter by letter as measured: joined letters and kerning would make lines shorter than the room set aside for them. */
const FEATURES = { liga: false, clig: false, kern: false } as unknown as [];

function drawWords(doc: Doc, at: Point, what: { readonly words: string; readonly look: WordsLook }): void {
  const { look } = what;
  doc.save();
  const face = laidFont(doc, look.face);
  doc.fontSize(look.sizeMm).fillColor(look.colour);
  setLettersOneByOne(face);
  const words = printable(face.font, what.words);
  if (look.rimMm > 0) doc.strokeColor(look.colour).lineWidth(look.rimMm).lineJoin('round');
  if (look.upwards) doc.rotate(-90, { origin: [finite(at.x), finite(at.y)] });
  const length = doc.widthOfString(words, { features: FEATURES });
  const before = { start: 0, middle: length / 2, end: length }[look.anchor];
  const options = { lineBreak: false, baseline: 'alphabetic', features: FEATURES } as const;
  doc.text(words, finite(at.x) - before, finite(at.y), {
    ...options,
    ...(look.rimMm > 0 ? { fill: true, stroke: true } : {}),
  });
  doc.restore();
}

/** The library is a stream: all of it has been pushed when `end` returns, since nothing is compressed or read from outside. */
function finish(doc: Doc): Uint8Array {
  const chunks: Uint8Array[] = [];
  doc.end();
  for (let chunk = doc.read(); chunk !== null; chunk = doc.read()) chunks.push(chunk as Uint8Array);
  const bytes = joined(chunks);
  const tail = new TextDecoder('latin1').decode(bytes.subarray(-16));
  if (!tail.includes('%%EOF')) throw new Error('the PDF library did not finish its file');
  return bytes;
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(chunks.reduce((total, chunk) => total + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
}
