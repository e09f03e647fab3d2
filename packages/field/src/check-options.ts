import type { FieldProblem } from './field-error.ts';
import { GRID_RULES } from './quality.ts';
import type { SolveOptions } from './solve-options.ts';

/** All that is wrong with what is asked of the solver. */
export function checkOptions(options: SolveOptions): FieldProblem[] {
  const { quality = 'normal', freqHz = [], farFieldHz = [], stepDegrees = 3, memoryBytes = 1 } = options;
  const { threads = 1 } = options;
  const isStep = stepDegrees > 0 && stepDegrees <= 90;
  const problems: (FieldProblem | false)[] = [
    !(quality in GRID_RULES) && problem('quality', quality, 'is none of draft, normal and fine', 'give one of them'),
    ...[{ freqHz }, { farFieldHz }].flatMap(badFrequencies),
    !isStep &&
      problem('stepDegrees', stepDegrees, 'is not above 0 and up to 90', 'give degrees between two directions'),
    !(memoryBytes > 0) && problem('memoryBytes', memoryBytes, 'is not above 0', 'give bytes, or leave it out'),
    !(Number.isInteger(threads) && threads > 0) &&
      problem('threads', threads, 'is not a whole number above 0', 'give a number of threads, or leave it out'),
  ];
  return problems.filter((one) => one !== false);
}

const badFrequencies = (lists: Readonly<Record<string, readonly number[]>>): FieldProblem[] =>
  Object.entries(lists).flatMap(([path, list]) =>
    list.flatMap((hz, n) =>
      Number.isFinite(hz) && hz > 0 ? [] : [problem(`${path}[${n}]`, hz, 'is not a number above 0', 'give it in Hz')],
    ),
  );

const problem = (path: string, value: unknown, allowed: string, remedy: string): FieldProblem => ({
  code: 'option',
  path,
  value: String(value),
  allowed,
  remedy,
});
