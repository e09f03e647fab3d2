import { COMMANDS, type CommandSpec, GLOBAL_OPTIONS, type OptionSpec } from './commands.ts';
import { EXIT_HELP } from './exit-code.ts';

const WIDTH = 78;

/** Help for the whole command. */
export function generalHelp(): string {
  return page([
    'sheetwave: from one design file to a flat panel antenna.',
    'Use: sheetwave COMMAND [options]',
    listed('Commands', [...COMMANDS.map((c): Row => [`${c.name} ${c.operand}`, c.summary])]),
    listed('Options', GLOBAL_OPTIONS.map(optionRow)),
    'sheetwave COMMAND --help says more about one command.',
    exitCodes(),
  ]);
}

/** Help for one command. */
export function commandHelp(command: CommandSpec): string {
  return page([
    `Use: sheetwave ${command.name} ${command.operand} [options]`,
    ...command.details,
    listed('Options', command.options.map(optionRow)),
    exitCodes(),
  ]);
}

type Row = readonly [string, string];

const exitCodes = () => listed('Exit codes', EXIT_HELP);
const optionRow = (option: OptionSpec): Row => [optionText(option), option.help];
const optionText = ({ name, value }: OptionSpec) => (value === undefined ? `--${name}` : `--${name} ${value}`);

function page(blocks: readonly string[]): string {
  return `${blocks.map((block) => (block.includes('\n') ? block : wrap(block))).join('\n\n')}\n`;
}

function listed(title: string, rows: readonly Row[]): string {
  const width = Math.max(...rows.map(([left]) => left.length));
  return [`${title}:`, ...rows.map(([left, right]) => `  ${left.padEnd(width)}  ${right}`)].join('\n');
}

function wrap(text: string): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line].join('\n');
}
