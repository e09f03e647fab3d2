import { DrawingFault } from './fault.ts';

/** One group of a DXF file: a code and its value, with the line of the code (1-based). */
export interface Tag {
  readonly code: number;
  readonly value: string;
  readonly line: number;
}

/** One entity: its name and groups. */
export interface Entity {
  readonly name: string;
  readonly tags: readonly Tag[];
  readonly line: number;
}

/** The groups of a DXF text file (DXF Reference, "Group codes": a code and a value on a line each; memory). */
export function dxfTags(text: string): readonly Tag[] {
  const lines = text.replace(/^\ufeff/, '').split(/\r\n|\n|\r/);
  if (lines.at(-1)?.trim() === '') lines.pop();
  const tags: Tag[] = [];
  for (let i = 0; i < lines.length; i += 2) {
    const code = (lines[i] ?? '').trim();
    const value = lines[i + 1];
    if (!/^\d{1,4}$/.test(code) || value === undefined) {
      const allowed = `is not a DXF text file: line ${i + 1} should hold a group code`;
      throw new DrawingFault('not-dxf', allowed, 'save the drawing as DXF in text form');
    }
    tags.push({ code: Number(code), value: value.trim(), line: i + 1 });
  }
  return tags;
}

/** Tags of a section, without the ones that open and close it; undefined when there is none. */
export function dxfSection(tags: readonly Tag[], name: string): readonly Tag[] | undefined {
  const start = tags.findIndex(
    (tag, i) => tag.code === 2 && tag.value === name && tags[i - 1]?.code === 0 && tags[i - 1]?.value === 'SECTION',
  );
  if (start < 0) return undefined;
  const length = tags.slice(start).findIndex((tag) => tag.code === 0 && tag.value === 'ENDSEC');
  return length < 0 ? tags.slice(start + 1) : tags.slice(start + 1, start + length);
}

/** The entities of a section, each from its 0 group to the next. */
export function dxfEntities(section: readonly Tag[]): readonly Entity[] {
  const entities: { name: string; tags: Tag[]; line: number }[] = [];
  for (const tag of section) {
    if (tag.code === 0) entities.push({ name: tag.value, tags: [], line: tag.line });
    else entities.at(-1)?.tags.push(tag);
  }
  return entities;
}

const NUMBER = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?$/;

/** A number in a tag. Throws a DrawingFault for what is not a finite number. */
export function tagNumber({ value, line }: Tag): number {
  const number = NUMBER.test(value) ? Number(value) : Number.NaN;
  if (Number.isFinite(number)) return number;
  throw new DrawingFault(
    'not-a-number',
    `has ${JSON.stringify(value.slice(0, 20))} on line ${line + 1} in place of a number`,
    'correct the drawing',
  );
}

/** The number of the first tag with a code; `fallback` when there is none, or a fault without one. */
export function numberOf(entity: Entity, code: number, fallback?: number): number {
  const tag = entity.tags.find((one) => one.code === code);
  if (tag !== undefined) return tagNumber(tag);
  if (fallback !== undefined) return fallback;
  throw new DrawingFault(
    'not-dxf',
    `has a ${entity.name} on line ${entity.line} without group ${code}`,
    'save the drawing again',
  );
}
