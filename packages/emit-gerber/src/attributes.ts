import type { Assembly, BoardPart } from '@sheetwave/geometry';
import { guidOf } from './digest.ts';

type Design = Assembly['design'];

/** Who wrote the files. The version is that of the package. */
export const SOFTWARE = { vendor: 'sheetwave project', application: 'sheetwave', version: '0.1.0' } as const;

/** What every file of one board says about itself. */
export interface Identity {
  readonly project: { readonly name: string; readonly guid: string; readonly revision: string };
  /** The same in every file whose coordinates line up. */
  readonly coordinates: string;
  /** ISO 8601 with time and zone, or undefined when the design gives no date. */
  readonly created: string | undefined;
}

export function boardIdentity(design: Design, board: BoardPart): Identity {
  // Plain data in a fixed order of keys: equal designs give equal text.
  const content = JSON.stringify(design);
  return {
    project: { name: design.name, guid: guidOf(`project ${content}`), revision: design.revision },
    coordinates: guidOf(`coordinates ${board.id} ${content}`),
    created: fullDate(design.date),
  };
}

/** `2026-05-17` becomes `2026-05-17T00:00:00+00:00`; a full date and time stays. Throws for anything else. */
export function fullDate(date: string | undefined): string | undefined {
  if (date === undefined) return undefined;
  if (/^\d{4}-\d{2}-\d{2}$/.test(date)) return `${date}T00:00:00+00:00`;
  if (/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(Z|[+-]\d{2}:\d{2})$/.test(date)) return date;
  throw new Error(`Gerber: ${JSON.stringify(date)} is not an ISO 8601 date`);
}

/** One file attribute: its name without `TF`, and its fields. */
export interface Attribute {
  readonly name: string;
  readonly fields: readonly string[];
}

/** The attributes of a file, in the order readers expect; `.MD5` is added where the file ends. */
export function fileAttributes(identity: Identity, file: { function: string; polarity: string }): readonly Attribute[] {
  const { project, coordinates, created } = identity;
  const { vendor, application, version } = SOFTWARE;
  return [
    { name: '.GenerationSoftware', fields: [vendor, application, version] },
    ...(created === undefined ? [] : [{ name: '.CreationDate', fields: [created] }]),
    { name: '.ProjectId', fields: [project.name, project.guid, project.revision] },
    { name: '.Part', fields: ['Single'] },
    { name: '.SameCoordinates', fields: [coordinates] },
    { name: '.FileFunction', fields: file.function.split(',') },
    { name: '.FilePolarity', fields: [file.polarity] },
  ];
}

/** `.Part,Single`: fields are separated by commas, so a comma inside one is escaped. */
export function attributeText({ name, fields }: Attribute): string {
  return [name, ...fields.map(fieldText)].join(',');
}

/**
 * A field as printable ASCII. What would end it or the command (`,` `*` `%`), the escape itself and any other character
 * is written as `\uXXXX`, or `\UXXXXXXXX` beyond the first 65536 (Gerber Layer Format Specification, "Strings").
 */
function fieldText(text: string): string {
  return [...text].map(escapeCharacter).join('');
}

function escapeCharacter(character: string): string {
  if (/^[ -~]$/.test(character) && !/[,*%\\]/.test(character)) return character;
  const code = character.codePointAt(0) ?? 0;
  const hex = code.toString(16).toUpperCase();
  return code > 0xffff ? `\\U${hex.padStart(8, '0')}` : `\\u${hex.padStart(4, '0')}`;
}
