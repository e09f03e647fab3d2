import { type Request, readArguments } from './arguments.ts';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { Failure } from './failure.ts';
import { commandHelp, generalHelp } from './help.ts';
import type { Outcome } from './report.ts';
import { paint, type Terminal, visible } from './terminal.ts';

type Runner = (context: Context) => Promise<Outcome>;

/** Loaded when they are asked for: help and version need none of the packages below. */
const RUNNERS: Readonly<Record<string, () => Promise<Runner>>> = {
  make: async () => (await import('./make-command.ts')).runMake,
  size: async () => (await import('./size-command.ts')).runSize,
  sensitivity: async () => (await import('./sensitivity-command.ts')).runSensitivity,
  trim: async () => (await import('./trim-command.ts')).runTrim,
  yield: async () => (await import('./yield-command.ts')).runYield,
  check: async () => (await import('./check-command.ts')).runCheck,
  predict: async () => (await import('./predict-command.ts')).runPredict,
  cover: async () => (await import('./cover-command.ts')).runCover,
  link: async () => (await import('./link-command.ts')).runLink,
  compare: async () => (await import('./compare-command.ts')).runCompare,
  gain: async () => (await import('./gain-command.ts')).runGain,
  pattern: async () => (await import('./pattern-command.ts')).runPattern,
  log: async () => (await import('./log-command.ts')).runLog,
  new: async () => (await import('./new-command.ts')).runNew,
};

/** Runs the command and gives its exit code. Never rejects. */
export async function run(argv: readonly string[], terminal: Terminal, version: string): Promise<number> {
  const json = argv.includes('--json');
  try {
    const outcome = await answer(readArguments(argv), { terminal, version, json });
    terminal.stdout.write(json ? jsonText(outcome.exitCode, outcome.json) : outcome.text);
    return outcome.exitCode;
  } catch (error) {
    return tell(error, terminal, json);
  }
}

interface Surroundings {
  readonly terminal: Terminal;
  readonly version: string;
  readonly json: boolean;
}

async function answer(request: Request, { terminal, version, json }: Surroundings): Promise<Outcome> {
  if (request.kind === 'version') return { exitCode: EXIT.done, json: { version }, text: `sheetwave ${version}\n` };
  if (request.kind === 'help') {
    const help = request.command === undefined ? generalHelp() : commandHelp(request.command);
    return { exitCode: EXIT.done, json: { help }, text: help };
  }
  const { command, operand, operands, switches, values, lists } = request;
  const load = RUNNERS[command.name];
  if (load === undefined) throw new Error(`the command ${command.name} has help but nothing that runs it`);
  const say = (text: string) => {
    if (!json && text !== '') terminal.stderr.write(text);
  };
  const runner = await load();
  return runner({ terminal, operand, operands, switches, values, lists, version, say, isQuiet: json });
}

function tell(error: unknown, terminal: Terminal, json: boolean): number {
  const failure = error instanceof Failure ? error : internal(error);
  if (json) {
    const { code, message, data } = failure;
    terminal.stdout.write(jsonText(failure.exitCode, { problem: { code, message }, ...data }));
  } else {
    const word = paint('error', 'error', { output: terminal.stderr, env: terminal.env });
    terminal.stderr.write(`${word}: ${failure.message}\n`);
    if (failure.exitCode === EXIT.usage) terminal.stderr.write('sheetwave --help lists commands and options.\n');
  }
  return failure.exitCode;
}

/** A fault of ours: what happened, for a report, and that nothing of the user's is lost. */
function internal(error: unknown): Failure {
  const what = error instanceof Error ? (error.stack ?? error.message) : String(error);
  const message = `a fault in sheetwave itself; nothing was written. Please report it with the design file:\n${visible(what, true)}`;
  return new Failure('internal', EXIT.internal, message);
}

function jsonText(exitCode: number, fields: Readonly<Record<string, unknown>>): string {
  return `${JSON.stringify({ ok: exitCode === EXIT.done, exitCode, ...fields })}\n`;
}
