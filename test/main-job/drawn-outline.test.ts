import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newFolder, sheetwave, snapshot } from './command.ts';
import { faultsOfPack } from './whole-pack.ts';

// A patch whose outline comes from a drawing beside the design.

const design = (file: string, more = ''): string => `format = 1
name = "Orchard wing"
[band]
low = "5.7 GHz"
high = "5.9 GHz"
[reflector]
sheet = "brass-1.0"
[[layer]]
shape = "outline"
file = "${file}"
${more}
sheet = "brass-0.5"
spacer = "m3-mf-5-brass"
process = "laser"
[feed]
from_edge = "4 mm"
[coax]
stock = "semi-rigid-141"
`;

const svg = (path: string, size = 'width="30mm" height="30mm" viewBox="0 0 30 30"'): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${size}><path d="${path}"/></svg>`;
const WING = svg('M0 4L26 4L22 28L4 28Z M18 8h4v3h-4z');

/** A folder with a design and drawings, and what the command said about it. */
async function make(files: Readonly<Record<string, string>>, named = 'wing.svg', more = '') {
  const cwd = newFolder();
  mkdirSync(join(cwd, 'd'));
  writeFileSync(join(cwd, 'd', 'design.toml'), design(named, more));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(cwd, 'd', name), text);
  return { cwd, ...(await sheetwave(['make', join('d', 'design.toml'), '--out', 'p'], { cwd })) };
}

describe('a drawn outline', () => {
  it('makes a whole pack, which carries the drawing and can be made again from itself, to the byte', async () => {
    const made = await make({ 'wing.svg': WING });
    expect([made.code, faultsOfPack(join(made.cwd, 'p'))]).toEqual([0, []]);
    const { design: kept } = JSON.parse(readFileSync(join(made.cwd, 'p', 'pack.json'), 'utf8'));
    expect(kept.drawings.map(({ name, text }: { name: string; text: string }) => [name, text])).toEqual([
      ['wing.svg', WING],
    ]);
    const again = newFolder();
    writeFileSync(join(again, 'design.toml'), kept.text);
    for (const { name, text } of kept.drawings) writeFileSync(join(again, name), text);
    const second = await sheetwave(['make', 'design.toml', '--out', 'p'], { cwd: again });
    expect(second.code).toBe(0);
    expect(snapshot(join(again, 'p'))).toEqual(snapshot(join(made.cwd, 'p')));
  });

  it('says in the summary that no closed form holds', async () => {
    const { cwd } = await make({ 'wing.svg': WING });
    expect(readFileSync(join(cwd, 'p', 'summary.md'), 'utf8')).toContain('No closed form holds for a drawn outline');
  });

  it.each<[string, string, string, string, RegExp]>([
    [
      'one that crosses itself',
      svg('M0 4L26 28L26 4L0 28Z'),
      'wing.svg',
      '',
      /layer 1 file: "wing.svg" crosses or touches itself at \(0, 0\) mm|crosses or touches itself at \(13, -16\) mm/,
    ],
    [
      'an open path',
      svg('M0 4L26 4L22 28L4 28'),
      'wing.svg',
      '',
      /is open: a line ends at .*24\.331 mm from the nearest other end/,
    ],
    ['no path', svg(''), 'wing.svg', '', /holds no closed curve/],
    [
      'no unit',
      svg('M0 4L26 4L22 28Z', 'viewBox="0 0 30 30"'),
      'wing.svg',
      '',
      /does not say in which unit.*units = "mm"/,
    ],
    [
      'another unit',
      WING,
      'wing.svg',
      'units = "in"',
      /says that it is drawn in units of 1 mm, and the design says in/,
    ],
    [
      'two outsides',
      svg('M0 4L20 4L20 24L0 24Z M25 5h3v3h-3z'),
      'wing.svg',
      '',
      /outside the largest one, so that it would be two parts/,
    ],
    ['a hole in a hole', svg('M0 4L26 4L22 28L4 28Z M6 6h8v8h-8z M8 8h2v2h-2z'), 'wing.svg', '', /inside a cut-out/],
    [
      'a hole over the edge',
      svg('M0 4L26 4L22 28L4 28Z M20 10h8v3h-8z'),
      'wing.svg',
      '',
      /two curves that cross or touch/,
    ],
    [
      'a feed in a hole',
      svg('M0 4L26 4L26 28L0 28Z M11 22h4v4h-4z'),
      'wing.svg',
      '',
      /feed\.from_edge: 4 mm puts the solder hole .* not all metal/,
    ],
    [
      'a centre in a hole',
      svg('M0 4L26 4L26 28L0 28Z M10 13h6v6h-6z'),
      'wing.svg',
      '',
      /fixing hole .*is not wholly on the metal/,
    ],
    ['a name that leads away', WING, '../wing.svg', '', /is not a plain path below the folder/],
    ['a whole path', WING, '/etc/wing.svg', '', /is not a path below the folder/],
    ['another kind of file', WING, 'wing.png', '', /neither a \.dxf nor an \.svg/],
    [
      'a file that is not there',
      WING,
      'other.svg',
      '',
      /the drawing other\.svg that the design names cannot be read: there is no such file/,
    ],
  ])('refuses %s, in one message, and writes nothing', async (_, text, named, more, message) => {
    const { cwd, code, stderr } = await make({ 'wing.svg': text }, named, more);
    expect(code).not.toBe(0);
    expect(stderr).toMatch(message);
    expect([...snapshot(cwd).keys()].filter((path) => path === 'p')).toEqual([]);
  });

  it('does not follow a link out of the folder of the design, and stops at 1 MB', async () => {
    const cwd = newFolder();
    mkdirSync(join(cwd, 'd'));
    writeFileSync(join(cwd, 'wing.svg'), WING);
    writeFileSync(join(cwd, 'd', 'design.toml'), design('wing.svg'));
    symlinkSync(join(cwd, 'wing.svg'), join(cwd, 'd', 'wing.svg'));
    const linked = await sheetwave(['check', join('d', 'design.toml')], { cwd });
    expect(linked.stderr).toMatch(/is a link out of the folder of the design/);
    const large = await make({ 'wing.svg': `${WING}${' '.repeat(1_000_001)}` });
    expect([large.code === 0, large.stderr]).toEqual([false, expect.stringMatching(/larger than 1 MB/)]);
  });
});
