/** What the command's exit code says. */
export const EXIT = {
  done: 0,
  designHasErrors: 1,
  usage: 2,
  files: 3,
  internal: 4,
  noAnswer: 5,
  interrupted: 130,
  terminated: 143,
} as const;

/** The same in words, for `--help`. */
export const EXIT_HELP: readonly (readonly [string, string])[] = [
  ['0', 'done'],
  ['1', 'the design has errors'],
  ['2', 'the command was used wrongly'],
  ['3', 'a file could not be read or written'],
  ['4', 'a fault in sheetwave itself'],
  ['5', 'the field solver gave no answer'],
  ['130', 'interrupted from the keyboard (143: told to end)'],
];
