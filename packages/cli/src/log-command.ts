import { basename } from 'node:path';
import {
  asBuiltText,
  type Cable,
  type HistoryRow,
  type HistorySource,
  history,
  type LogEntry,
  readReadings,
} from '@sheetwave/bench';
import { type Design, type Finding, formatLength } from '@sheetwave/design';
import { reflectionChart, reflectionCurve, type XyChart, xyChart } from '@sheetwave/plots';
import { addEntry, buildLogFolder, keepCopy, type OpenLog, openBuildLog } from './build-log-folder.ts';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { Failure, usageFailure } from './failure.ts';
import { cableOf } from './known-cable.ts';
import { sourceOf } from './log-source.ts';
import { pairOf } from './measured-option.ts';
import { writeNewFile } from './new-design-file.ts';
import { frequencyText, ratioText } from './number-words.ts';
import { type CheckedDesign, readCheckedDesign } from './read-checked-design.ts';
import { readBytes } from './read-input.ts';
import { sweepOfBytes } from './read-sweep.ts';
import { countText, findingLines, type Outcome } from './report.ts';
import { visible } from './terminal.ts';
import { textTable } from './text-table.ts';
import { writePlots } from './write-plots.ts';

const LARGEST_SWEEP_BYTES = 64_000_000;

/** `sheetwave log DESIGN [add|as-built]`. */
export async function runLog(context: Context): Promise<Outcome> {
  const { operand = '-', operands, terminal } = context;
  if (operand === '-') throw usageFailure('the log lies beside a design file; give the file instead of standard input');
  const [, what = 'show'] = operands;
  const checked = await readCheckedDesign(context);
  const opened = await openBuildLog(buildLogFolder(operand, terminal.workingFolder));
  context.say(
    findingLines(opened.log.findings, visible(`${basename(opened.folder)}/log.jsonl`), {
      output: terminal.stderr,
      env: terminal.env,
    }),
  );
  if (what === 'add') return add(context, checked, opened);
  refuseOptionsOfAdd(context);
  if (what === 'as-built') return writeAsBuilt(context, checked, opened);
  if (what === 'show') return show(context, checked, opened);
  throw usageFailure(`"${visible(what)}" is not something to do with a log; write add, as-built, or nothing to see it`);
}

const OF_ADD = ['sweep', 'note', 'date', 'cable', 'cable-loss', 'cable-open', 'cable-short'];

function refuseOptionsOfAdd({ values, lists }: Context): void {
  const found = [...OF_ADD.filter((name) => values.has(name)), ...lists.keys()][0];
  if (found !== undefined)
    throw usageFailure(`--${found} is for adding an entry; write: sheetwave log DESIGN add --${found} …`);
}

async function add(context: Context, { text, checked }: CheckedDesign, opened: OpenLog): Promise<Outcome> {
  const { values, lists, terminal, say } = context;
  const { design } = checked;
  const note = values.get('note');
  const given = (lists.get('measured') ?? []).map(pairOf);
  const readings = readReadings(design, given);
  say(findingLines(readings.findings, '', { output: terminal.stderr, env: terminal.env }).replaceAll(': : ', ': '));
  if (!readings.ok)
    throw new Failure('bad-readings', EXIT.usage, `nothing was added: ${countText(readings.findings)}`, {
      findings: readings.findings,
    });
  const sweepName = values.get('sweep');
  const date = dateOf(values.get('date'));
  const sweep = sweepName === undefined ? undefined : await readForLog(sweepName, context, design);
  const { folder } = opened;
  const keptDesign = await keepCopy(folder, {
    kind: 'designs',
    bytes: new TextEncoder().encode(text),
    ending: '.toml',
  });
  const keptSweep =
    sweep === undefined
      ? undefined
      : await keepCopy(folder, { kind: 'sweeps', bytes: sweep.bytes, ending: `.s${sweep.ports}p` });
  const entry = await addEntry(opened, {
    date,
    design: { ...keptDesign, name: design.name, revision: design.revision },
    ...(sweep === undefined || keptSweep === undefined || sweepName === undefined
      ? {}
      : {
          sweep: {
            ...keptSweep,
            name: basename(sweepName),
            ...(sweep.cable === undefined ? {} : { cable: sweep.cable }),
          },
        }),
    ...(Object.keys(readings.readings).length === 0 ? {} : { measuredMm: readings.readings }),
    ...(note === undefined ? {} : { note }),
  });
  return {
    exitCode: EXIT.done,
    json: { folder, entry, findings: [...opened.log.findings, ...readings.findings] },
    text: `Added entry ${entry.number} to ${visible(folder)}: ${partsOf(entry).join(', ')}.\n`,
  };
}

function partsOf({ sweep, measuredMm, note }: LogEntry): readonly string[] {
  const readings = Object.keys(measuredMm ?? {}).length;
  return [
    'the design',
    ...(sweep === undefined ? [] : [`the sweep ${visible(sweep.name)}`]),
    ...(readings === 0 ? [] : [`${readings} ${readings === 1 ? 'reading' : 'readings'}`]),
    ...(note === undefined ? [] : ['a note']),
  ];
}

const DATE = /^\d{4}-\d{2}-\d{2}(?:T\d{2}:\d{2}(?::\d{2})?(?:Z|[+-]\d{2}:\d{2})?)?$/;

/** The date that is given, or now to the minute. */
function dateOf(text: string | undefined): string {
  if (text === undefined) return `${new Date().toISOString().slice(0, 16)}Z`;
  if (DATE.test(text) && !Number.isNaN(Date.parse(text))) return text;
  throw usageFailure(`--date ${visible(text)} is not a date; write it like 2026-05-17 or 2026-05-17T14:30`);
}

interface SweepForLog {
  readonly bytes: Uint8Array;
  readonly ports: number;
  readonly cable: Cable | undefined;
}

async function readForLog(name: string, context: Context, { band }: Design): Promise<SweepForLog> {
  const bytes = await readBytes(name, context.terminal, LARGEST_SWEEP_BYTES);
  const { file } = sweepOfBytes(name, bytes, context);
  const known = await cableOf(context, file.response, (band.lowHz + band.highHz) / 2);
  return { bytes, ports: file.ports, cable: known?.cable };
}

/** The design file with the newest reading of each dimension. */
async function writeAsBuilt(context: Context, { text, checked }: CheckedDesign, { log }: OpenLog): Promise<Outcome> {
  const { terminal, values, switches } = context;
  const readings: Record<string, number> = {};
  for (const { measuredMm } of log.entries) Object.assign(readings, measuredMm);
  if (Object.keys(readings).length === 0) throw usageFailure('the log holds no readings yet; add them with --measured');
  const known = Object.entries(readings).map(([path, mm]) => [path, formatLength(mm)] as const);
  const sound = readReadings(checked.design, known);
  if (!sound.ok)
    throw new Failure(
      'bad-readings',
      EXIT.designHasErrors,
      'the design no longer has every dimension that was measured; nothing was written',
      { findings: sound.findings },
    );
  const { edit, put, kept } = asBuiltText(checked.design, text, readings);
  if (!edit.ok)
    throw new Failure(
      'not-editable',
      EXIT.designHasErrors,
      `the readings cannot be put into the design: ${edit.finding.path} ${edit.finding.allowed}; ${edit.finding.remedy}`,
      { findings: [edit.finding] },
    );
  const out = values.get('out');
  const words = kept.length === 0 ? '' : `Not put in, since the design names a stock item there: ${kept.join(', ')}.\n`;
  const json = { put, kept, readings, file: out ?? null, design: edit.text };
  if (out === undefined) {
    context.say(words);
    return { exitCode: EXIT.done, json, text: edit.text };
  }
  await writeNewFile({
    name: out,
    workingFolder: terminal.workingFolder,
    text: edit.text,
    force: switches.has('force'),
  });
  return {
    exitCode: EXIT.done,
    json,
    text: `Wrote ${visible(out)} with ${put.length} sizes as they were measured.\n${words}`,
  };
}

async function show(
  context: Context,
  { checked, drawings }: CheckedDesign,
  { folder, log }: OpenLog,
): Promise<Outcome> {
  const { design } = checked;
  const lost: Finding[] = [];
  const sources: HistorySource[] = [];
  for (const entry of log.entries) sources.push(await sourceOf(entry, { folder, drawings, context, lost }));
  const aim = { band: design.band, targetVswr: design.targets.vswr };
  const rows = history(sources, aim, design.coax.coax.impedanceOhm);
  const title = `${design.name}: build log`;
  const plots = await writePlots(context, figuresOf(title, rows, design));
  const shown = rows.map(({ response: _, ...row }) => row);
  return {
    exitCode: EXIT.done,
    json: { folder, entries: shown, findings: [...log.findings, ...lost], plots },
    text:
      rows.length === 0
        ? `Nothing in the log yet. Add to it: sheetwave log ${visible(context.operand ?? 'DESIGN')} add --sweep FILE --note "…"\n`
        : textOfRows(title, rows, plots),
  };
}

function textOfRows(title: string, rows: readonly HistoryRow[], plots: readonly string[]): string {
  const table = textTable([
    ['', 'date', 'revision', 'least reflection', 'worst in band', 'width at VSWR 2', 'what was done'],
    ...rows.flatMap(rowCells),
  ]);
  return `${[visible(title), '', ...table, ...(plots.length === 0 ? [] : ['', ...plots.map((name) => `Drew ${visible(name)}`)])].join('\n')}\n`;
}

function rowCells({
  number,
  date,
  revision,
  leastReflectionHz,
  side,
  note,
  changed,
  measuredMm,
}: HistoryRow): readonly (readonly string[])[] {
  const sizes = changed.map(({ words, from, to }) => `${words} ${formatLength(from)} to ${formatLength(to)}`);
  const readings = Object.entries(measuredMm).map(([path, mm]) => `measured ${path} ${formatLength(mm)}`);
  const done = [...(note === '' ? [] : [note]), ...sizes, ...readings].map((line) => visible(line));
  const first = [
    String(number),
    date,
    visible(revision),
    leastReflectionHz === undefined ? '-' : frequencyText(leastReflectionHz),
    side?.inBand === undefined ? '-' : ratioText(side.inBand.worst.vswr),
    side?.atTwo === undefined ? '-' : `${(side.atTwo.widthHz / 1e6).toFixed(0)} MHz`,
    done[0] ?? '',
  ];
  return [first, ...done.slice(1).map((line) => ['', '', '', '', '', '', line])];
}

/** How many sweeps one diagram can tell apart. */
const MOST_CURVES = 6;

function figuresOf(title: string, rows: readonly HistoryRow[], { band, targets }: Design) {
  const swept = rows.flatMap(({ number, response }) => (response === undefined ? [] : [{ number, response }]));
  const curves = swept.slice(-MOST_CURVES).map(({ number, response }) => {
    const { look: _, ...curve } = reflectionCurve(`entry ${number}`, response);
    return curve;
  });
  const found = rows.flatMap(({ number, leastReflectionHz }) =>
    leastReflectionHz === undefined ? [] : [{ x: number, y: leastReflectionHz / 1e9 }],
  );
  return {
    ...(curves.length === 0
      ? {}
      : {
          sweeps: reflectionChart({ curves, target: { ...band, vswr: targets.vswr } }, { title: `${title}, sweeps` }),
        }),
    ...(found.length === 0 ? {} : { history: xyChart(resonanceChart(found, rows.length, band), { title }) }),
  };
}

function resonanceChart(
  points: readonly { readonly x: number; readonly y: number }[],
  entries: number,
  band: Design['band'],
): XyChart {
  const [low, high] = [band.lowHz / 1e9, band.highHz / 1e9];
  const values = [...points.map(({ y }) => y), low, high];
  const room = 0.15 * (Math.max(...values) - Math.min(...values));
  const numbers = Array.from({ length: entries }, (_, i) => i + 1).filter(
    (n) => entries <= 12 || n % Math.ceil(entries / 12) === 0,
  );
  return {
    x: { label: 'entry', from: 0.5, to: entries + 0.5, ticks: { values: numbers, texts: numbers.map(String) } },
    y: { label: 'least reflection, GHz', from: Math.min(...values) - room, to: Math.max(...values) + room },
    curves: [{ name: 'least reflection', points, marksEach: true, look: 'ringed' }],
    shades: [{ kind: 'wanted', fromY: low, toY: high }],
  };
}
