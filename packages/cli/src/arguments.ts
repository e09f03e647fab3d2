import { parseArgs } from 'node:util';
import { nearestWords } from '@sheetwave/design';
import { COMMANDS, type CommandSpec, GLOBAL_OPTIONS, type OptionSpec } from './commands.ts';
import { type Failure, usageFailure } from './failure.ts';
import { visible } from './terminal.ts';

/** What the user asks for. */
export type Request =
  | { readonly kind: 'version' }
  | { readonly kind: 'help'; readonly command: CommandSpec | undefined }
  | {
      readonly kind: 'command';
      readonly command: CommandSpec;
      /** The first of the operands. */
      readonly operand: string | undefined;
      readonly operands: readonly string[];
      readonly switches: ReadonlySet<string>;
      readonly values: ReadonlyMap<string, string>;
      /** Of options that may stand more than once. */
      readonly lists: ReadonlyMap<string, readonly string[]>;
    };

/** Reads the arguments after the program's name. Throws a usage Failure with the nearest known word. */
export function readArguments(argv: readonly string[]): Request {
  const [first, ...rest] = argv;
  const names = COMMANDS.map(({ name }) => name);
  if (first === undefined)
    throw usageFailure(
      `say what to do: ${names.slice(0, -1).join(', ')} or ${names.at(-1)} (sheetwave --help says more)`,
    );
  if (first.startsWith('-')) return readGlobal(first, argv);
  if (first === 'help') return readArguments([...rest.slice(0, 1), '--help']);
  const command = COMMANDS.find((known) => known.name === first);
  if (command === undefined) throw unknownCommand(first);
  return readCommand(command, rest);
}

function readGlobal(first: string, argv: readonly string[]): Request {
  if (argv.includes('--help')) return { kind: 'help', command: undefined };
  if (first === '--version') return { kind: 'version' };
  const known = COMMANDS.flatMap((command) => command.options).some((option) => first.startsWith(`--${option.name}`));
  if (known) throw usageFailure(`options come after a command, as in: sheetwave make design.toml ${visible(first)}`);
  throw unknownOption(first, GLOBAL_OPTIONS, 'sheetwave');
}

function readCommand(command: CommandSpec, argv: readonly string[]): Request {
  const { tokens } = parseArgs({
    args: [...argv],
    options: Object.fromEntries(command.options.map((option) => [option.name, parseOptionOf(option)])),
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const operands: string[] = [];
  const switches = new Set<string>();
  const values = new Map<string, string>();
  const lists = new Map<string, readonly string[]>();
  for (const token of tokens) {
    if (token.kind === 'positional') operands.push(token.value);
    else if (token.kind === 'option') takeOption(command, token, { switches, values, lists });
  }
  if (switches.has('help')) return { kind: 'help', command };
  checkOperands(command, operands);
  return { kind: 'command', command, operand: operands[0], operands, switches, values, lists };
}

function parseOptionOf(option: OptionSpec): { type: 'string' | 'boolean' } {
  return { type: option.value === undefined ? 'boolean' : 'string' };
}

interface OptionToken {
  readonly name: string;
  readonly rawName: string;
  readonly value: string | undefined;
}

function takeOption(
  command: CommandSpec,
  token: OptionToken,
  into: {
    readonly switches: Set<string>;
    readonly values: Map<string, string>;
    readonly lists: Map<string, readonly string[]>;
  },
): void {
  const option = command.options.find((known) => token.rawName === `--${known.name}`);
  if (option === undefined) throw unknownOption(token.rawName, command.options, `sheetwave ${command.name}`);
  const { name } = option;
  if (into.switches.has(name) || into.values.has(name))
    throw usageFailure(`--${name} stands there twice; give it once`);
  if (option.value === undefined) {
    if (token.value !== undefined) throw usageFailure(`--${name} takes no value; write it alone`);
    into.switches.add(name);
  } else {
    if (token.value === undefined || token.value === '') {
      throw usageFailure(`--${name} needs a value: --${name} ${option.value}`);
    }
    if (option.repeats === true) into.lists.set(name, [...(into.lists.get(name) ?? []), token.value]);
    else into.values.set(name, token.value);
  }
}

function checkOperands(command: CommandSpec, operands: readonly string[]): void {
  const { least, most, missing } = command.more ?? { least: 0, most: 0, missing: '' };
  const use = `sheetwave ${command.name} ${command.operand}`;
  const extra = operands[1 + most];
  if (extra !== undefined) throw usageFailure(`"${visible(extra)}" is one name too many; write: ${use}`);
  if (operands.length === 0 && command.operandNeeded) throw usageFailure(`the design file is missing; write: ${use}`);
  if (operands.includes('')) throw usageFailure(`the file name is empty; write: ${use}`);
  if (operands.length < 1 + least && command.operandNeeded) throw usageFailure(`${missing} is missing; write: ${use}`);
}

function unknownCommand(word: string): Failure {
  const names = COMMANDS.map((command) => command.name);
  const [near] = nearestWords(word, names, 1);
  const hint = near === undefined ? `the commands are ${names.join(', ')}` : `did you mean ${near}?`;
  return usageFailure(`there is no command "${visible(word)}"; ${hint}`);
}

function unknownOption(raw: string, known: readonly OptionSpec[], program: string): Failure {
  const name = raw.replace(/=.*$/s, '');
  const names = known.map((option) => `--${option.name}`);
  const [near] = nearestWords(name, names, 1);
  const hint = near === undefined ? `its options are ${names.join(', ')}` : `did you mean ${near}?`;
  return usageFailure(`${program} has no option "${visible(name)}"; ${hint}`);
}
