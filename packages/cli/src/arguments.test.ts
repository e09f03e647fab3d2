import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readArguments } from './arguments.ts';
import { COMMANDS } from './commands.ts';
import { Failure } from './failure.ts';

const words = (argv: string[]) => {
  try {
    return readArguments(argv);
  } catch (error) {
    if (error instanceof Failure) return error.message;
    throw error;
  }
};

describe('arguments', () => {
  it('reads a command with its file, switches and values, in any order', () => {
    for (const argv of [
      ['make', 'a.toml', '--out', 'dir', '--json'],
      ['make', '--json', '--out=dir', 'a.toml'],
    ]) {
      const request = readArguments(argv);
      expect(request).toMatchObject({ kind: 'command', command: { name: 'make' }, operand: 'a.toml' });
      if (request.kind !== 'command') throw new Error('not a command');
      expect([...request.switches]).toEqual(['json']);
      expect([...request.values]).toEqual([['out', 'dir']]);
    }
  });

  it('takes - for standard input, and what follows -- for a name', () => {
    expect(readArguments(['check', '-'])).toMatchObject({ operand: '-' });
    expect(readArguments(['check', '--', '--odd.toml'])).toMatchObject({ operand: '--odd.toml' });
  });

  it.each(COMMANDS.map((command) => command.name))('shows the help of %s wherever --help stands', (name) => {
    expect(readArguments([name, '--help'])).toMatchObject({ kind: 'help', command: { name } });
    expect(readArguments([name, 'x', '--json', '--help'])).toMatchObject({ kind: 'help', command: { name } });
    expect(readArguments(['help', name])).toMatchObject({ kind: 'help', command: { name } });
  });

  it('shows the version and the general help', () => {
    expect(readArguments(['--version'])).toEqual({ kind: 'version' });
    expect(readArguments(['--help'])).toEqual({ kind: 'help', command: undefined });
    expect(readArguments(['help'])).toEqual({ kind: 'help', command: undefined });
  });

  it.each([
    [[], /say what to do: make, predict, .* or \w+/],
    [['mkae', 'x'], /no command "mkae"; did you mean make\?/],
    [['frobnicate'], /no command "frobnicate"; the commands are make, predict, .*new/],
    [['make'], /the design file is missing; write: sheetwave make DESIGN/],
    [['make', ''], /empty/],
    [['make', 'a', 'b'], /"b" is one name too many/],
    [['make', 'a', '--uot', 'x'], /no option "--uot"; did you mean --out\?/],
    [['make', 'a', '--out'], /--out needs a value/],
    [['make', 'a', '--out='], /--out needs a value/],
    [['make', 'a', '--out', 'x', '--out', 'y'], /twice/],
    [['make', 'a', '--json=yes'], /--json takes no value/],
    [['make', 'a', '--no-json'], /no option "--no-json"/],
    [['check', 'a', '--out', 'x'], /sheetwave check has no option "--out"/],
    [['new', '-f'], /no option "-f"/],
    [['--out', 'x', 'make'], /options come after a command/],
    [['--frce'], /no option "--frce"/],
    [['ma\u001b[2Jke'], /"ma\\u\{1b\}\[2Jke"/],
  ])('says what is wrong with %j', (argv, expected) => {
    expect(words(argv)).toMatch(expected);
  });

  it('gives a request or a usage failure for any words at all', () => {
    const word = fc.oneof(
      fc.string(),
      fc.constantFrom('make', 'check', 'new', '--out', '--json', '--help', '-', '--', '--version', '-x', '__proto__'),
    );
    fc.assert(
      fc.property(fc.array(word, { maxLength: 6 }), (argv) => {
        words(argv);
      }),
      { seed: 20261125, numRuns: 2000 },
    );
  });
});
