import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Design, readDesign, renderFinding } from '@sheetwave/design';
import { type Assembly, assemble } from '@sheetwave/geometry';

const EXAMPLES = join(import.meta.dirname, '..', '..', 'examples');

const common = `
format = 1
revision = "A"
[band]
low = "5.15 GHz"
high = "5.35 GHz"
[targets]
vswr = 2
[reflector]
size = { width = "120 mm", height = "120 mm" }
sheet = "brass-1.0"
process = "hand"
[lattice]
rows = 1
columns = 1
orientation = "vertical"
[harness]
kind = "none"
[coax]
stock = "semi-rigid-141"
connector = "n-plug-cable"
length = "200 mm"
[feed]
kind = "probe"
from_edge = "4 mm"
probe_diameter = "0.92 mm"
solder_hole = "1.2 mm"
[hardware]
thread = "M3"
screw = "m3-pan-25-brass"
nut = "m3-nut-brass"
[print]
hole_allowance = "0.25 mm"
fit_clearance = "0.3 mm"
wall = "1.8 mm"
`;

const printedLayer = (name: string, shape: string, printed: string): string => `
[[layer]]
name = "${name}"
${shape}
sheet = "brass-0.5"
spacer = { printed = "${printed}", outer = "8 mm" }
process = "hand"
`;
const rectangle = (length: number, width: number) =>
  `shape = "rectangle"\nlength = "${length} mm"\nwidth = "${width} mm"`;
const disc = (diameter: number) => `shape = "circle"\ndiameter = "${diameter} mm"`;

/** Stacks no example has: wider above narrower, discs only, boards, one layer. */
const own: Readonly<Record<string, string>> = {
  'a wider patch above a narrower one': [
    'name = "widening"',
    common,
    printedLayer('driven', rectangle(18, 20), '5 mm'),
    printedLayer('wide', rectangle(24, 30), '6.35 mm'),
  ].join('\n'),
  'discs of three sizes': [
    'name = "discs"',
    common,
    printedLayer('driven', disc(24), '5 mm'),
    printedLayer('small', disc(17), '4 mm'),
    printedLayer('large', disc(27), '4.5 mm'),
  ].join('\n'),
  'a board above an etched patch': [
    'name = "boards"',
    common.replace('sheet = "brass-1.0"\nprocess = "hand"', 'board = "ptfe-glass-0.787-35"\nprocess = "etch"'),
    `[[layer]]\nname = "driven"\n${rectangle(17, 20)}\nprocess = "etch"`,
    `[[layer]]\nname = "parasitic"\n${rectangle(19, 19)}\nboard = "fr4-0.8-35"\ncopper_side = "inward"\nborder = "2.5 mm"`,
    'spacer = { printed = "5.5 mm", outer = "8 mm" }\nprocess = "etch"',
  ].join('\n'),
  'one patch': ['name = "one"', common, printedLayer('driven', rectangle(24, 24), '7.1 mm')].join('\n'),
};

/** Two by two, `count` by `count`, of brass by hand with bent rods. */
export function rodArray(count: number, more = ''): Made {
  const levels = Array.from({ length: 2 * Math.log2(count) }, (_, i) =>
    ['[[harness.level]]', `joins = "${i % 2 === 0 ? 'rows' : 'columns'}"`, 'rod = "brass-rod-1.5"'].join('\n'),
  );
  const text = readFileSync(join(EXAMPLES, 'brass-2x2-5g8', 'design.toml'), 'utf8')
    .replace(/\[\[harness\.level\]\][\s\S]*(?=\[coax\])/, `${levels.join('\n')}\n\n`)
    // Without its section, there is nothing to size in it.
    .replace(/^harness\.level\.1\.section.*$/m, '')
    .replace('rows = 2', `rows = ${count}`)
    .replace('columns = 2', `columns = ${count}`);
  return made(`${count} by ${count}`, `${text}\n${more}`);
}

/** An example with more lines at its end. */
export function exampleWith(name: string, more: string, file = 'design.toml'): Made {
  return made(name, `${readFileSync(join(EXAMPLES, name, file), 'utf8')}\n${more}`);
}

export interface Made {
  readonly name: string;
  readonly design: Design;
  readonly assembly: Assembly;
}

/** Every example, and the stacks above. */
export function jigDesigns(): readonly Made[] {
  const examples = readdirSync(EXAMPLES, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && existsSync(join(EXAMPLES, entry.name, 'design.toml')))
    .map((entry) => [entry.name, readFileSync(join(EXAMPLES, entry.name, 'design.toml'), 'utf8')] as const);
  return [...examples, ...Object.entries(own)].map(([name, text]) => made(name, text));
}

function made(name: string, text: string): Made {
  const { design, findings } = readDesign(text);
  const assembled = design === undefined ? undefined : assemble(design);
  if (design === undefined || assembled?.assembly === undefined)
    throw new Error(
      [name, ...findings, ...(assembled?.findings ?? [])]
        .map((f) => (typeof f === 'string' ? f : renderFinding(f)))
        .join('\n'),
    );
  return { name, design, assembly: assembled.assembly };
}
