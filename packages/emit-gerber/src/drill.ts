import type { BoardPart, Hole, HolePurpose } from '@sheetwave/geometry';
import { attributeText, fileAttributes, type Identity } from './attributes.ts';
import type { Frame } from './frame.ts';
import { ascii } from './gerber-file.ts';

/** Two digits, or a reader takes the number for a tool with its compensation. */
const MOST_TOOLS = 99;

type DrillFunction = 'ComponentDrill' | 'ViaDrill' | 'MechanicalDrill';

/** What a metal-lined hole is for: a lead is soldered into it, or it only joins the two sides. */
const PLATED_FUNCTION: Readonly<Record<HolePurpose, DrillFunction>> = {
  'connector-pin': 'ComponentDrill',
  'connector-post': 'ComponentDrill',
  feed: 'ComponentDrill',
  coax: 'ComponentDrill',
  fixing: 'ViaDrill',
  mounting: 'ViaDrill',
  'connector-flange': 'ViaDrill',
  clamp: 'ViaDrill',
  drain: 'ViaDrill',
  gland: 'ViaDrill',
};

function drillFunction({ plated, purpose }: Hole): DrillFunction {
  return plated ? PLATED_FUNCTION[purpose] : 'MechanicalDrill';
}

/** The holes of a board that one of its two drill files makes. */
export function holesOf(board: BoardPart, plated: boolean): readonly Hole[] {
  return board.outline.holes.filter((hole) => hole.plated === plated);
}

export function drillFileFunction(plated: boolean): string {
  return plated ? 'Plated,1,2,PTH' : 'NonPlated,1,2,NPTH';
}

/**
 * An XNC drill file (XNC Format Specification, revision 2021.11): round holes, finished diameters, millimetres with a
 * decimal point. Attributes ride in comments. Tools run from small to large; holes keep the order of the board.
 */
export function drillBytes(
  board: BoardPart,
  plated: boolean,
  context: { frame: Frame; identity: Identity },
): Uint8Array {
  const tools = drillTools(holesOf(board, plated));
  const attributes = fileAttributes(context.identity, { function: drillFileFunction(plated), polarity: 'Positive' });
  return ascii(
    [
      'M48',
      ...attributes.map((attribute) => `; #@! TF${attributeText(attribute)}`),
      'METRIC',
      ...tools.flatMap(toolDefinition),
      '%',
      'G05',
      ...tools.flatMap((tool) => [`T${tool.number}`, ...tool.holes.map((hole) => hit(hole, context.frame))]),
      'M30',
    ].join('\n'),
  );
}

interface Tool {
  /** `01` to `99`. */
  readonly number: string;
  readonly diameter: string;
  readonly function: DrillFunction;
  readonly holes: readonly Hole[];
}

function drillTools(holes: readonly Hole[]): readonly Tool[] {
  const groups = new Map<string, Hole[]>();
  for (const hole of holes) {
    const key = `${hole.diameterMm.toFixed(3)} ${drillFunction(hole)}`;
    groups.set(key, [...(groups.get(key) ?? []), hole]);
  }
  if (groups.size > MOST_TOOLS) throw new Error(`drill file: ${groups.size} tools, at most ${MOST_TOOLS}`);
  return [...groups.values()].sort(bySize).flatMap((group, index) => {
    const first = group[0];
    return first === undefined ? [] : [tool(index + 1, first, group)];
  });
}

const bySize = (a: readonly Hole[], b: readonly Hole[]): number => (a[0]?.diameterMm ?? 0) - (b[0]?.diameterMm ?? 0);

function tool(number: number, first: Hole, holes: readonly Hole[]): Tool {
  if (!(first.diameterMm >= 0.001)) throw new Error(`drill file: a hole of ${first.diameterMm} mm`);
  return {
    number: String(number).padStart(2, '0'),
    diameter: first.diameterMm.toFixed(3),
    function: drillFunction(first),
    holes,
  };
}

function toolDefinition({ number, diameter, function: purpose }: Tool): readonly string[] {
  return [`; #@! TA.AperFunction,${purpose}`, `T${number}C${diameter}`];
}

function hit(hole: Hole, frame: Frame): string {
  const { x, y } = frame.toMm(hole.centre);
  return `X${decimal(x)}Y${decimal(y)}`;
}

/** Micrometres are below what a drill machine holds; a -0.000 would only puzzle. */
function decimal(mm: number): string {
  if (!Number.isFinite(mm)) throw new Error(`drill file: ${mm} is not a place`);
  return (Math.round(mm * 1000) / 1000 + 0).toFixed(3);
}
