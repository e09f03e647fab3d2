/** What a design file holds, as data. */
export type Value = string | number | boolean | readonly Value[] | Table;
export interface Table {
  readonly [key: string]: Value;
}

export const isTable = (value: unknown): value is Table =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** A design file as TOML (1.0): sections in brackets, everything below them on one line. */
export function tomlOf(file: Table): string {
  const plain = Object.entries(file).filter(([, value]) => !isTable(value) && !isListOfTables(value));
  const sections = Object.entries(file).filter(([, value]) => isTable(value) || isListOfTables(value));
  return [...plain.map(line), ...sections.flatMap(([name, value]) => section(name, value))].join('\n').concat('\n');
}

const isListOfTables = (value: Value): value is readonly Table[] =>
  Array.isArray(value) && value.length > 0 && value.every(isTable);

function section(name: string, value: Value): string[] {
  const tables = isListOfTables(value) ? value : [value as Table];
  const head = isListOfTables(value) ? `[[${keyOf(name)}]]` : `[${keyOf(name)}]`;
  return tables.flatMap((table) => [head, ...Object.entries(table).map(line)]);
}

const line = ([key, value]: readonly [string, Value]): string => `${keyOf(key)} = ${inline(value)}`;
const keyOf = (key: string): string => (/^[\w-]+$/.test(key) ? key : JSON.stringify(key));

function inline(value: Value): string {
  if (typeof value === 'string') return quoted(value);
  if (typeof value === 'number') return numberText(value);
  if (typeof value === 'boolean') return String(value);
  if (!isTable(value)) return `[${value.map(inline).join(', ')}]`;
  return `{ ${Object.entries(value).map(line).join(', ')} }`;
}

function numberText(value: number): string {
  if (Number.isNaN(value)) return 'nan';
  if (!Number.isFinite(value)) return value > 0 ? 'inf' : '-inf';
  return Object.is(value, -0) ? '-0.0' : String(value);
}

/** A basic string; JSON's escapes are all TOML's too, but DEL must be escaped as well. */
const quoted = (text: string): string => JSON.stringify(text).replaceAll('\u007f', '\\u007f');
