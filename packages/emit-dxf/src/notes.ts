import { type Assembly, type Hole, type PlatePart, type Point, sawLine } from '@sheetwave/geometry';
import type { DxfEntity } from './drawing.ts';
import { splitHoles } from './machined-holes.ts';

/** Nominal lettering height, ISO 3098-1 (2.5, 3.5, 5 mm and so on); the line pitch follows it. */
const TEXT_MM = 2.5;
const PITCH_MM = 4.5;
const CHECK_MM = 100;
const TICK_MM = 2;

type Process = PlatePart['process'];
export type NoteDesign = Pick<Assembly['design'], 'name' | 'revision' | 'date'>;

/** What a person reads beside the part: one line of text each, `own` what its cutting asks for. Lengths of at most three decimals. */
export function noteLines(part: PlatePart, design: NoteDesign, own: readonly string[] = []): readonly string[] {
  return [
    `${design.name}: ${part.name}`,
    revisionNote(design),
    `material: ${part.sheet.label}`,
    `thickness: ${millimetres(part.sheet.thicknessMm)}`,
    `quantity: ${part.quantity} for one antenna`,
    `process: ${part.process.label}`,
    lineMeaning(part.process),
    ...roughCutNote(part),
    ...own,
    ...drillNotes(splitHoles(part).drilled),
    UNIT_NOTE,
  ].map(oneLine);
}

export const UNIT_NOTE = 'unit of this file: 1 mm';

export function revisionNote(design: NoteDesign): string {
  return `revision ${design.revision}${design.date === undefined ? '' : `, ${design.date}`}`;
}

/** What the lines of a file are: finished edges, or the way of the cutter. */
export function lineMeaning(process: Process): string {
  if (!process.compensateKerf) return 'nominal outline, no kerf allowance';
  return `tool path, kerf ${millimetres(process.kerfMm)} compensated`;
}

export function roughCutNote({ process: { allowanceMm }, outline }: PlatePart): readonly string[] {
  if (!(allowanceMm > 0)) return [];
  if (sawLine(outline.outer, allowanceMm) === undefined)
    return [`saw ${millimetres(allowanceMm)} outside CUT_OUTER by eye, file to it`];
  return [`saw on ROUGH_CUT (${millimetres(allowanceMm)} of stock left), file to CUT_OUTER`];
}

/** `drill 4 x 3.2 mm (fixing)`, small to large. */
function drillNotes(holes: readonly Hole[]): readonly string[] {
  const counts = new Map<string, { readonly hole: Hole; count: number }>();
  for (const hole of holes) {
    const key = `${hole.diameterMm} ${hole.purpose}`;
    const entry = counts.get(key) ?? { hole, count: 0 };
    entry.count += 1;
    counts.set(key, entry);
  }
  return [...counts.values()]
    .sort((a, b) => a.hole.diameterMm - b.hole.diameterMm)
    .map(({ hole, count }) => `drill ${count} x ${millimetres(hole.diameterMm)} (${hole.purpose})`);
}

/** From the check line down to its label, clear of the ticks. */
const LABEL_DROP_MM = TICK_MM + TEXT_MM + 1;

/** A length of exactly 100 mm with ticks and its label: measured first, it shows a file read in the wrong unit. */
function checkLine(start: Point): readonly DxfEntity[] {
  const { x, y } = start;
  const stroke = (from: Point, to: Point): DxfEntity => ({ kind: 'line', layer: 'NOTE', from, to });
  return [
    stroke({ x, y }, { x: x + CHECK_MM, y }),
    stroke({ x, y: y - TICK_MM }, { x, y: y + TICK_MM }),
    stroke({ x: x + CHECK_MM, y: y - TICK_MM }, { x: x + CHECK_MM, y: y + TICK_MM }),
    textLine('this line is 100 mm long: measure before cutting', { x, y: y - LABEL_DROP_MM }),
  ];
}

/** The check line and the notes below each other, from `corner` (upper left) down; `lowestY` is where they end. */
export function noteBlock(
  lines: readonly string[],
  corner: Point,
): { readonly entities: readonly DxfEntity[]; readonly widthMm: number; readonly lowestY: number } {
  const top = { x: corner.x, y: corner.y - TICK_MM };
  const first = top.y - LABEL_DROP_MM - PITCH_MM;
  const texts = lines.map((line, index) => textLine(line, { x: corner.x, y: first - index * PITCH_MM }));
  return {
    entities: [...checkLine(top), ...texts],
    widthMm: CHECK_MM,
    lowestY: first - (lines.length - 1) * PITCH_MM,
  };
}

const textLine = (text: string, at: Point): DxfEntity => ({
  kind: 'text',
  layer: 'NOTE',
  at,
  align: 'left',
  heightMm: TEXT_MM,
  text,
});

/** What a person typed may hold line breaks or be long; a note is one line of at most 250 characters. */
export function oneLine(text: string): string {
  return text
    .replace(/[\p{C}\s]+/gu, ' ')
    .trim()
    .slice(0, 250)
    .trim();
}

export const millimetres = (mm: number): string => `${Number(mm.toFixed(3))} mm`;
