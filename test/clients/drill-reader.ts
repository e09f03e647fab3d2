import gerberParser from 'gerber-parser';

/** One hole as a reader sees it. */
export interface DrillHit {
  readonly xMm: number;
  readonly yMm: number;
  readonly diameterMm: number;
}

/** Commands of the parser that matter for round holes. */
type Command =
  | { type: 'tool'; code: string; tool: { params: readonly number[] } }
  | { type: 'set'; prop: string; value: string }
  | { type: 'op'; op: string; coord: { x?: number; y?: number } };

/** The holes that gerber-parser reads in a drill file; it takes the unit from the file. */
export function drillWithParser(bytes: Uint8Array): Promise<readonly DrillHit[]> {
  return new Promise((resolve, reject) => {
    const parser = gerberParser({ filetype: 'drill' });
    const commands: Command[] = [];
    parser.on('data', (command: Command) => commands.push(command));
    parser.on('error', reject);
    parser.on('end', () => resolve(hits(commands)));
    parser.end(new TextDecoder().decode(bytes));
  });
}

function hits(commands: readonly Command[]): readonly DrillHit[] {
  const diameters = new Map<string, number>();
  const found: DrillHit[] = [];
  let tool = '';
  let at = { x: Number.NaN, y: Number.NaN };
  if (!commands.some((command) => command.type === 'set' && command.prop === 'units' && command.value === 'mm'))
    throw new Error('the reader takes the file for inches');
  for (const command of commands) {
    if (command.type === 'tool') diameters.set(command.code, command.tool.params[0] ?? Number.NaN);
    if (command.type === 'set' && command.prop === 'tool') tool = command.value;
    if (command.type !== 'op') continue;
    at = { ...at, ...command.coord };
    found.push({ xMm: at.x, yMm: at.y, diameterMm: diameters.get(tool) ?? Number.NaN });
  }
  return found;
}
