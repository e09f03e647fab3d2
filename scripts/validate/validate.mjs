// The field solver against published measurements. See `--help`.
import { readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { loadValidation } from './load-validation.mjs';

const HELP = `npm run validate -- [--csv FILE]... [--rows ID,ID] [--quality draft|normal|fine] [--from FILE]... [--json | --markdown]

Solves each measured patch of a table and compares. Without --csv: the tables of test/published/tables.

  --csv FILE     a table with the columns of those tables; may be given several times
  --rows ID,ID   only these cases
  --quality Q    of the grid; default normal
  --json         one JSON object in a line for each row, errors to the other output
  --from FILE    take the rows that --json printed before instead of solving; may be given several times
  --markdown     write the tables into the README of packages/field; only with every row of the published tables
  --convergence  instead: the resonance on three grids and what they tend to

A row that cannot be read, or whose run does not converge, is told with its line and skipped; the exit status is then 1.`;

const QUALITIES = ['draft', 'normal', 'fine'];
const OWN = ['rectangular', 'circular', 'layered', 'triangular'];

function readArguments() {
  try {
    return parseArgs({
      options: {
        csv: { type: 'string', multiple: true },
        rows: { type: 'string' },
        quality: { type: 'string', default: 'normal' },
        threads: { type: 'string' },
        json: { type: 'boolean', default: false },
        from: { type: 'string', multiple: true },
        markdown: { type: 'boolean', default: false },
        convergence: { type: 'boolean', default: false },
        help: { type: 'boolean', default: false },
      },
    }).values;
  } catch (error) {
    return fail(error.message);
  }
}

function fail(message) {
  process.stderr.write(`${message}\n\n${HELP}\n`);
  process.exit(2);
}

const values = readArguments();
if (values.help) {
  console.log(HELP);
  process.exit(0);
}
if (!QUALITIES.includes(values.quality)) fail(`--quality: "${values.quality}" is none of ${QUALITIES.join(', ')}`);
const threads = Number(values.threads ?? Math.min(2, availableParallelism()));
if (!(Number.isInteger(threads) && threads > 0)) fail(`--threads: "${values.threads}" is not a whole number above 0`);

if (values.markdown && !values.convergence && !values.from && (values.csv || values.rows))
  fail('--markdown: the README holds every row of the published tables; leave out --csv and --rows');

const validation = await loadValidation();
const note = (text) => process.stderr.write(`${text}\n`);
let isFaulty = false;

function fault(text) {
  isFaulty = true;
  note(text);
}

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const tables = join(root, 'test', 'published', 'tables');
const readme = join(root, 'packages', 'field', 'README.md');

function readFiles() {
  const files = values.csv ?? OWN.map((name) => join(tables, `${name}.csv`));
  return files.flatMap((file) => {
    let text;
    try {
      text = readFileSync(file, 'utf8');
    } catch (error) {
      fault(`${file}: cannot be read: ${error.message}`);
      return [];
    }
    const { rows, problems } = validation.readTable(text);
    for (const problem of problems) fault(validation.describeProblem(file, problem));
    return rows;
  });
}

function chosenRows() {
  const rows = readFiles();
  if (values.rows === undefined) return rows;
  const wanted = values.rows.split(',').map((id) => id.trim());
  for (const id of wanted) {
    if (!rows.some(({ caseId }) => caseId === id)) fault(`--rows: no case is called "${id}"`);
  }
  return rows.filter(({ caseId }) => wanted.includes(caseId));
}

async function compare(rows) {
  const reports = [];
  for (const row of rows) {
    const start = performance.now();
    try {
      const found = await validation.solveRow(row, { quality: values.quality, threads });
      const report = validation.reportRow(row, found, (performance.now() - start) / 1e3);
      reports.push(report);
      if (values.json) console.log(JSON.stringify(report));
      else note(`${report.case_id}  ${report.error_percent.toFixed(2)} %  ${report.seconds.toFixed(1)} s`);
    } catch (error) {
      fault(`${row.caseId}: no prediction: ${error.message}`);
    }
  }
  if (!values.json) show(reports);
}

function show(reports) {
  const { ROW_TITLES, MEAN_TITLES, rowCells, meanCells, meanErrors } = validation;
  const table = values.markdown ? validation.markdownTable : validation.textTable;
  const means = table(MEAN_TITLES, meanErrors(reports).map(meanCells));
  const text = `${means}\n\n${table(ROW_TITLES, reports.map(rowCells))}`;
  if (values.markdown) writeWhole(reports, text);
  else console.log(text);
}

/** A table of some rows must not take the place of the whole one. */
function writeWhole(reports, text) {
  const missing = publishedIds().filter((id) => !reports.some((report) => report.case_id === id));
  if (missing.length === 0) writeSection('measured patches', text);
  else fault(`--markdown: the README is left as it is; there is no prediction of ${missing.join(', ')}`);
}

/** The study is of chosen rows: those that the README has must all be there again. */
function writeStudy(found, text) {
  const section = readFileSync(readme, 'utf8').split('<!-- convergence -->')[1]?.split('<!-- end of')[0] ?? '';
  const before = [...section.matchAll(/^\| ([A-Z]+-\S+) /gm)].map(([, id]) => id);
  const missing = before.filter((id) => !found.some(({ caseId }) => caseId === id));
  if (missing.length === 0) writeSection('convergence', text);
  else fault(`--markdown: the README is left as it is; there is no study of ${missing.join(', ')}`);
}

const publishedIds = () =>
  OWN.flatMap((name) => validation.readTable(readFileSync(join(tables, `${name}.csv`), 'utf8')).rows).map(
    ({ caseId }) => caseId,
  );

/** Puts a table between its two marks in the README. */
function writeSection(name, text) {
  const file = readme;
  const before = readFileSync(file, 'utf8');
  const [from, to] = [`<!-- ${name} -->`, `<!-- end of ${name} -->`];
  const [start, end] = [before.indexOf(from), before.indexOf(to)];
  if (start < 0 || end < start) return fault(`${file}: the marks ${from} and ${to} are not there`);
  writeFileSync(file, `${before.slice(0, start + from.length)}\n\n${text}\n\n${before.slice(end)}`);
  note(`${file} written`);
}

const earlier = () =>
  values.from.flatMap((file) =>
    readFileSync(file, 'utf8')
      .split('\n')
      .filter(Boolean)
      .map((line) => JSON.parse(line)),
  );

async function converge(rows) {
  const found = [];
  for (const row of rows) {
    try {
      const study = await validation.studyConvergence(row, threads);
      found.push(study);
      if (values.json) console.log(JSON.stringify(study));
      else note(study.caseId);
    } catch (error) {
      fault(`${row.caseId}: no prediction: ${error.message}`);
    }
  }
  if (!values.json) showConvergence(found);
}

function showConvergence(found) {
  const table = values.markdown ? validation.markdownTable : validation.textTable;
  const text = table(validation.CONVERGENCE_TITLES, found.map(validation.convergenceCells));
  if (values.markdown) writeStudy(found, text);
  else console.log(text);
}

if (values.from) (values.convergence ? showConvergence : show)(earlier());
else await (values.convergence ? converge : compare)(chosenRows());
process.exit(isFaulty ? 1 : 0);
