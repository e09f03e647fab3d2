/** What may stand after a command's name. */
export interface OptionSpec {
  readonly name: string;
  /** Word for its value in help; undefined for a switch. */
  readonly value?: string;
  /** May stand there more than once. */
  readonly repeats?: boolean;
  readonly help: string;
}

export interface CommandSpec {
  readonly name: string;
  /** As help shows it: `DESIGN`, `[FILE]`. */
  readonly operand: string;
  readonly operandNeeded: boolean;
  /** What may stand after the first operand: how many at least and at most, and what one that is missing is called. */
  readonly more?: { readonly least: number; readonly most: number; readonly missing: string };
  readonly summary: string;
  /** Paragraphs of its own help. */
  readonly details: readonly string[];
  readonly options: readonly OptionSpec[];
}

const JSON_OPTION: OptionSpec = { name: 'json', help: 'print one JSON object, for programs' };
const HELP_OPTION: OptionSpec = { name: 'help', help: 'print this help' };

export const COMMANDS: readonly CommandSpec[] = [
  {
    name: 'make',
    operand: 'DESIGN',
    operandNeeded: true,
    summary: 'write the build pack of a design',
    details: [
      'Reads a design file and writes the folder with everything the workshop needs: cut files, copper and drill files, paper templates, printed parts, pictures, the parts list and a summary.',
      'DESIGN is a design file, or - for standard input. Without --out the pack goes into the current folder, named for the design file with -pack at the end (for a file called design.toml: for the folder it is in).',
      'An earlier pack in that folder is replaced whole. A folder that is not a pack, or that holds files of yours, is never touched. Nothing is written when the design has an error.',
    ],
    options: [{ name: 'out', value: 'DIR', help: 'folder of the pack' }, JSON_OPTION, HELP_OPTION],
  },
  {
    name: 'predict',
    operand: 'DESIGN',
    operandNeeded: true,
    summary: 'say what the antenna will do, by a field solution',
    details: [
      'Builds the antenna of a design in a field solver, from the same parts that the drawings show, and prints its resonances, match, bandwidth, gain, beam and efficiency, how far they may be off, and what to do next. The build pack is written as make does, with the diagrams, the S parameters (Touchstone) and all numbers in its folder prediction/.',
      'Before the solver starts it says how large the grid is and how long it will take. Ctrl-C stops it; nothing is written then. A design that has not changed is not solved again: predictions are kept in the cache folder of the user ($XDG_CACHE_HOME or ~/.cache, sheetwave/predictions).',
    ],
    options: [
      { name: 'quality', value: 'WORD', help: 'grid: draft, normal (default) or fine' },
      { name: 'feed', value: 'WORD', help: 'as-built (default), or each-element without harness' },
      { name: 'check-mesh', help: 'solve on a second grid too, to state the error' },
      { name: 'points', value: 'COUNT', help: 'frequencies of the sweep (default 201)' },
      { name: 'memory', value: 'SIZE', help: 'what it may take, as in "2 GB" (default: half)' },
      { name: 'threads', value: 'COUNT', help: 'threads to work on (default: all that help)' },
      { name: 'no-cache', help: 'solve again, and keep nothing' },
      { name: 'progress', help: 'show progress with --json too' },
      { name: 'out', value: 'DIR', help: 'folder of the pack' },
      JSON_OPTION,
      HELP_OPTION,
    ],
  },
  {
    name: 'check',
    operand: 'DESIGN',
    operandNeeded: true,
    summary: 'say what is wrong with a design, without writing anything',
    details: [
      'Goes through everything that make does and prints all findings. DESIGN is a design file, or - for standard input.',
    ],
    options: [JSON_OPTION, HELP_OPTION],
  },
  {
    name: 'link',
    operand: '[DESIGN]',
    operandNeeded: false,
    summary: 'work out the link that an antenna is for, and what is legal',
    details: [
      'Reads a site file (both ends, the path, the radio, the rules of your region) and says whether the link closes and at which rate, what takes the power, how much of it is legal, how far people must stay away and what the wind does. With a DESIGN the gain, size and mass are those of its antenna; without one the site must give the gain.',
      'Without --site it reads site.toml beside the design, or in the current folder. A profile of the ground is a CSV file beside the site. With --out the profile of the path is drawn as an SVG file; an existing file is left alone unless you say --force.',
      'Limits come from a dated table with a source for each row. It is a planning aid: check with your regulator.',
    ],
    options: [
      { name: 'site', value: 'FILE', help: 'the site file' },
      { name: 'out', value: 'FILE', help: 'draw the profile of the path into this SVG file' },
      { name: 'force', help: 'replace an existing picture' },
      JSON_OPTION,
      HELP_OPTION,
    ],
  },
  {
    name: 'new',
    operand: '[FILE]',
    operandNeeded: false,
    summary: 'write a commented design file to start from',
    details: ['FILE is design.toml when none is given. An existing file is left alone unless you say --force.'],
    options: [{ name: 'force', help: 'replace an existing file' }, JSON_OPTION, HELP_OPTION],
  },
];

/** Options that stand without a command. */
export const GLOBAL_OPTIONS: readonly OptionSpec[] = [{ name: 'version', help: 'print the version' }, HELP_OPTION];
