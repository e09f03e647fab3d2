/**
 * Reads a DXF text file by its grammar (DXF Reference, "About the DXF format" and "Entities section"; memory) and throws at the first
 * thing that is not in it: pairs of a whole group code and a value, sections that open and close, numbers that are numbers, one
 * handle for one thing.
 */
export function readDxf(bytes: Uint8Array): { readonly entities: number } {
  const lines = new TextDecoder('utf-8', { fatal: true }).decode(bytes).split(/\r?\n/);
  if (lines.at(-1) === '') lines.pop();
  if (lines.length % 2 !== 0) throw new Error('an odd number of lines');
  const handles = new Set<string>();
  let section = '';
  let entities = 0;
  for (let i = 0; i < lines.length; i += 2) {
    const [code, value] = [codeOf(lines[i] ?? ''), lines[i + 1] ?? ''];
    if (isNumeric(code)) requireNumber(code, value);
    if (code === 5 && section !== 'HEADER') requireNew(handles, value);
    if (code === 0 && section === 'ENTITIES' && value !== 'ENDSEC') entities += 1;
    if (code === 2 && lines[i - 1] === 'SECTION') section = opened(section, value);
    if (code === 0 && value === 'ENDSEC') section = closed(section);
  }
  if (section !== '' || lines.at(-1) !== 'EOF') throw new Error('does not end with EOF outside a section');
  return { entities };
}

function codeOf(line: string): number {
  if (!/^ *\d{1,4}$/.test(line)) throw new Error(`${JSON.stringify(line)} is not a group code`);
  return Number(line);
}

/** Codes whose values are numbers (DXF Reference, "Group code value types"; memory). */
const isNumeric = (code: number): boolean =>
  (code >= 10 && code <= 99) ||
  (code >= 140 && code <= 179) ||
  (code >= 210 && code <= 289) ||
  (code >= 370 && code <= 389);

function requireNumber(code: number, value: string): void {
  if (!/^ *[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)? *$/.test(value))
    throw new Error(`group ${code} holds ${JSON.stringify(value)}`);
}

function requireNew(handles: Set<string>, handle: string): void {
  if (!/^[0-9A-F]{1,16}$/i.test(handle) || handles.has(handle))
    throw new Error(`handle ${handle} is bad or given twice`);
  handles.add(handle);
}

function opened(inside: string, name: string): string {
  if (inside !== '') throw new Error(`section ${name} within ${inside}`);
  return name;
}

function closed(inside: string): string {
  if (inside === '') throw new Error('ENDSEC outside a section');
  return '';
}
