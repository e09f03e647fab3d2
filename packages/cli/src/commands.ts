import { CABLE_OPTIONS, PLOT_OPTIONS } from './shared-options.ts';

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

/** Options of the commands that solve the fields of many designs. */
const SOLVER_OPTIONS: readonly OptionSpec[] = [
  { name: 'quality', value: 'WORD', help: 'grid: draft, normal (default) or fine' },
  { name: 'memory', value: 'SIZE', help: 'what it may take, as in "2 GB" (default: half)' },
  { name: 'threads', value: 'COUNT', help: 'threads to work on (default: all that help)' },
  { name: 'no-cache', help: 'solve everything again, and keep nothing' },
];

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
      'What predict and sensitivity kept of this very antenna, or the earlier pack has, goes into the pack and its build plan; pack.json then names it. Results of another antenna, or of another version, are never taken, and a FILE of such is refused.',
    ],
    options: [
      { name: 'sensitivities', value: 'FILE', help: 'what sheetwave sensitivity --json printed of this design' },
      { name: 'no-cache', help: 'take nothing that predict or sensitivity kept' },
      { name: 'out', value: 'DIR', help: 'folder of the pack' },
      JSON_OPTION,
      HELP_OPTION,
    ],
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
    summary: 'say what is wrong with a design, writing nothing',
    details: [
      'Goes through everything that make does and prints all findings. DESIGN is a design file, or - for standard input.',
    ],
    options: [JSON_OPTION, HELP_OPTION],
  },
  {
    name: 'size',
    operand: 'DESIGN',
    operandNeeded: true,
    summary: 'choose the free dimensions so that the targets are met',
    details: [
      'Changes what the design lists under [free], within its ranges and out of the stock it names, until the worst VSWR over the band and the gain meet [targets]. Every candidate is solved by the field solver; a circuit fitted to the solutions says where to look next. When the goal cannot be met it says what is in the way.',
      'The best design so far is written as a new revision, comments kept, at every improvement: beside the design, or to --out. The design itself stays as it is. Ctrl-C ends the search and keeps the best.',
      '--round 0.1 puts lengths on tenths of a millimetre in the end, solves that design too, and says what rounding cost.',
    ],
    options: [
      { name: 'budget', value: 'COUNT', help: 'most field solutions (default 25, of an array 50)' },
      { name: 'round', value: 'MM', help: 'put lengths on multiples of this in the end' },
      ...SOLVER_OPTIONS,
      { name: 'out', value: 'FILE', help: 'the new revision' },
      { name: 'force', help: 'replace a file that is there already' },
      JSON_OPTION,
      HELP_OPTION,
    ],
  },
  {
    name: 'sensitivity',
    operand: 'DESIGN',
    operandNeeded: true,
    summary: 'say what 0.1 mm of each dimension does',
    details: [
      'Solves the design with each dimension a little larger and a little smaller, and prints how far the curve moves (MHz for 0.1 mm) and how much the worst reflection in the band grows (dB for 0.1 mm): of every dimension that a tool, a spacer or a supplier sets. Two field solutions for each, and four more to judge the slopes by. The result is kept for the build plan that make writes.',
    ],
    options: [
      { name: 'only', value: 'PATH', repeats: true, help: 'only this dimension, such as layer[0].length' },
      ...SOLVER_OPTIONS,
      JSON_OPTION,
      HELP_OPTION,
    ],
  },
  {
    name: 'yield',
    operand: 'DESIGN',
    operandNeeded: true,
    summary: 'say how many antennas meet their target',
    details: [
      'Takes the tolerances of [tolerances] (or the usual ones of each process), the slopes of sensitivity, and draws antennas at random: how many meet the VSWR over the band, which dimension counts most, and the tolerance that each needs for 90 %. Some of them are solved, to say how far the number is off. The same seed gives the same answer.',
    ],
    options: [
      { name: 'samples', value: 'COUNT', help: 'antennas to draw (default 20000)' },
      { name: 'seed', value: 'NUMBER', help: 'of the random numbers (default 1)' },
      { name: 'checks', value: 'COUNT', help: 'antennas to solve as a check (default 6)' },
      { name: 'only', value: 'PATH', repeats: true, help: 'only this dimension is off' },
      ...SOLVER_OPTIONS,
      JSON_OPTION,
      HELP_OPTION,
    ],
  },
  {
    name: 'cover',
    operand: 'DESIGN',
    operandNeeded: true,
    summary: 'say what a cover does to the antenna',
    details: [
      'Solves the antenna with a flat cover in front and with air in its place, both on the same grid, and prints how far the resonances move, what the match and the gain over the band become, and how far the changes may be off: both are solved on a coarser grid too. Four solutions, about two and a half times the time of predict.',
      'The cover is that of [cover] in the site file beside the design, or in --site; or the one that the options give: --material asa --thickness "2 mm" --distance "26 mm". What was solved is kept, and sheetwave link shows it.',
    ],
    options: [
      { name: 'site', value: 'FILE', help: 'the site file whose [cover] it is' },
      { name: 'material', value: 'WORD', help: 'asa, abs, petg, polycarbonate, acrylic and others' },
      { name: 'permittivity', value: 'NUMBER', help: 'relative, instead of a material' },
      { name: 'loss-tangent', value: 'NUMBER', help: 'with --permittivity (default 0)' },
      { name: 'thickness', value: 'LENGTH', help: 'of the cover, as in "2 mm"' },
      { name: 'distance', value: 'LENGTH', help: 'from the outermost patch to the cover' },
      ...SOLVER_OPTIONS,
      { name: 'progress', help: 'show progress with --json too' },
      JSON_OPTION,
      HELP_OPTION,
    ],
  },
  {
    name: 'link',
    operand: '[DESIGN]',
    operandNeeded: false,
    summary: 'work out the link of an antenna, and what is legal',
    details: [
      'Reads a site file (both ends, the path, the radio, the rules of your region) and says whether the link closes and at which rate, what takes the power, how much of it is legal, how far people must stay away and what the wind does. With a DESIGN the gain, size and mass are those of its antenna; the gain is that of its field solution when sheetwave predict has made one, with its mismatch and error, else that of closed forms. Without a DESIGN the site must give the gain.',
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
    details: [
      'FILE is design.toml when none is given. An existing file is left alone unless you say --force.',
      'With --low and --high it holds a stack of patches for that band, scaled from one that works, with ranges for sheetwave size to go on from. Its sizes are a start: have them sized before you cut.',
    ],
    options: [
      { name: 'low', value: 'FREQ', help: 'lower edge of the band, as in "5.15 GHz"' },
      { name: 'high', value: 'FREQ', help: 'upper edge of the band' },
      { name: 'layers', value: 'COUNT', help: 'patches of the stack, 1 to 3 (default 2)' },
      { name: 'vswr', value: 'RATIO', help: 'largest standing wave ratio wanted over the band (default 2)' },
      { name: 'force', help: 'replace an existing file' },
      JSON_OPTION,
      HELP_OPTION,
    ],
  },
  {
    name: 'compare',
    operand: 'DESIGN SWEEP',
    operandNeeded: true,
    more: { least: 1, most: 1, missing: 'the sweep' },
    summary: 'hold a measured sweep against what was expected',
    details: [
      'Reads a Touchstone file (.s1p, .s2p) from a network analyzer and says where the antenna resonates, how well it is matched over the band of the design, and how far both are from what was predicted.',
      'What was expected is the best prediction of this very antenna that sheetwave predict kept, or the one in its build pack; without one, the closed-form estimate where it holds, which it does not for stacked patches. --prediction names another: what sheetwave predict --json printed, or a Touchstone file.',
      'A cable between the plane of calibration and the antenna turns resistance and reactance; say how long it is (--cable "1.25 ns" --cable-loss "0.4 dB"), or have it found (--cable fit). Away from a resonance the sweep itself tells roughly; a sweep of the open or shorted end of the cable tells well, and its loss too.',
      'With --json, an infinite VSWR is null.',
    ],
    options: [
      { name: 'prediction', value: 'FILE', help: 'what to compare with' },
      { name: 'port', value: 'N', help: 'port of the sweep that the antenna was on; default 1' },
      ...CABLE_OPTIONS,
      ...PLOT_OPTIONS,
      JSON_OPTION,
      HELP_OPTION,
    ],
  },
  {
    name: 'gain',
    operand: 'DESIGN METHOD',
    operandNeeded: true,
    more: { least: 1, most: 1, missing: 'the method: substitution, three or link' },
    summary: 'work out the gain from measured levels, and its error',
    details: [
      'METHOD is substitution (the antenna, then one of known gain in its place: --level, --known-level, --known-gain), three (three antennas in pairs, none of them known: --first-second, --first-third, --second-third, each received over sent in dB; the design is the first), or link (--level, --sent, and --far-gain unless the far end has the same antenna).',
      'A level is a number ("-42.5 dBm", "-42.5 dB") or a Touchstone file of two ports, whose S21 is read. Give the sweep of each antenna too, so that its mismatch comes out. All need --distance; it is held against 2D²/lambda of the reflector and ten wavelengths.',
      'Each part of the error is listed with its source; --error level="0.2 dB" puts your own number in its place. While you measure the antenna sends: low power, nobody in the beam, and never work at a mast while it does.',
    ],
    options: [
      { name: 'level', value: 'LEVEL', help: 'with the antenna of the design' },
      { name: 'known-level', value: 'LEVEL', help: 'substitution: with the known antenna in its place' },
      { name: 'known-gain', value: 'GAIN', help: 'substitution: of the known antenna, as in "10 dBi"' },
      { name: 'first-second', value: 'LEVEL', help: 'three: the design and the second' },
      { name: 'first-third', value: 'LEVEL', help: 'three: the design and the third' },
      { name: 'second-third', value: 'LEVEL', help: 'three: the second and the third' },
      { name: 'sent', value: 'LEVEL', help: 'link: power that is sent' },
      { name: 'far-gain', value: 'GAIN', help: 'link: of the antenna of the far end' },
      { name: 'distance', value: 'LENGTH', help: 'between the antennas' },
      { name: 'freq', value: 'FREQ', help: 'default: the middle of the band' },
      { name: 'other-size', value: 'LENGTH', help: 'largest side of the other antenna, if larger' },
      { name: 'cables', value: 'DB', help: 'loss more than with the known one, or of the link' },
      { name: 'reflection', value: 'FILE', help: 'sweep of the antenna (.s1p)' },
      { name: 'known-reflection', value: 'FILE', help: 'substitution: sweep of the known one' },
      { name: 'second-reflection', value: 'FILE', help: 'three: sweep of the second' },
      { name: 'third-reflection', value: 'FILE', help: 'three: sweep of the third' },
      { name: 'error', value: 'PART=DB', repeats: true, help: 'your number for a part of the error' },
      JSON_OPTION,
      HELP_OPTION,
    ],
  },
  {
    name: 'pattern',
    operand: 'DESIGN CSV',
    operandNeeded: true,
    more: { least: 1, most: 1, missing: 'the readings of the turntable' },
    summary: 'read a cut of the pattern off a turntable',
    details: [
      'CSV has one reading a line: the angle in degrees, the level in dB and, where you read it, the level of the crossed polarisation. Prints the half-power width, the front-to-back ratio, the highest side lobe and how far the crossed polarisation is below, beside those of the prediction that is kept of this very antenna.',
      'Angles count from straight ahead, to the right or up. While you measure the antenna sends: low power, and stay out of the beam.',
    ],
    options: [
      { name: 'plane', value: 'WORD', help: 'vertical or horizontal (default) cut as hung' },
      { name: 'freq', value: 'FREQ', help: 'default: the middle of the band' },
      { name: 'ahead', value: 'ANGLE', help: 'reading of the turntable straight ahead, as in "12 deg"' },
      ...PLOT_OPTIONS,
      JSON_OPTION,
      HELP_OPTION,
    ],
  },
  {
    name: 'trim',
    operand: 'DESIGN SWEEP',
    operandNeeded: true,
    more: { least: 1, most: 1, missing: 'the sweep' },
    summary: 'turn a measured sweep into a cut in millimetres',
    details: [
      'Works out which sizes explain the sweep (a Touchstone file of the antenna as DESIGN has it), given what the workshop holds, and says which dimension to change, which way and how far, and what curve to expect. Material can only be taken off: where the resonance has to go down it names the spacer or the feed that would do it, or the size to cut the part anew. The first cut is half of what is reckoned; measure again, and go on.',
      'After a cut put the new size into the design, and the sweep into the build log. Earlier sweeps of the log, each with the design as it was then, and what the caliper read sharpen the model; --no-log leaves them out.',
      'The slopes come from field solutions, as in sensitivity.',
    ],
    options: [
      { name: 'measured', value: 'PATH=SIZE', repeats: true, help: 'what the caliper reads now' },
      { name: 'only', value: 'PATH', repeats: true, help: 'only this dimension may be off' },
      { name: 'no-log', help: 'leave the build log out' },
      ...CABLE_OPTIONS,
      ...SOLVER_OPTIONS,
      ...PLOT_OPTIONS,
      JSON_OPTION,
      HELP_OPTION,
    ],
  },
  {
    name: 'log',
    operand: 'DESIGN [WHAT]',
    operandNeeded: true,
    more: { least: 0, most: 1, missing: '' },
    summary: 'keep and show what was built, measured and changed',
    details: [
      'WHAT is add, as-built, or nothing. The build log is a folder beside the design; add puts in the design as it is now, and with it a sweep, what the caliper read (--measured layer[0].length="22.1 mm"), and a note; nothing is ever taken out. An entry that was cut short while it was written is left out, and the next one takes its place.',
      'Alone, log shows the history: what changed, where the antenna resonated, how well it was matched; with --plots as diagrams too.',
      'as-built prints the design file with each size as it was last measured, its comments kept, or writes it to --out: compare and predict then speak of what was built.',
    ],
    options: [
      { name: 'sweep', value: 'FILE', help: 'add: a Touchstone file, which is copied' },
      {
        name: 'measured',
        value: 'PATH=SIZE',
        repeats: true,
        help: 'add: what the caliper read; as often as needed',
      },
      { name: 'note', value: 'TEXT', help: 'add: what was done' },
      { name: 'date', value: 'DATE', help: 'add: when; now when left out' },
      ...CABLE_OPTIONS,
      { name: 'out', value: 'FILE', help: 'as-built: the file to write' },
      ...PLOT_OPTIONS,
      JSON_OPTION,
      HELP_OPTION,
    ],
  },
];

/** Options that stand without a command. */
export const GLOBAL_OPTIONS: readonly OptionSpec[] = [{ name: 'version', help: 'print the version' }, HELP_OPTION];
