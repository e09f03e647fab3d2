// The field solver against published measurements. See `--help`.
import { readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { loadValidation } from './load-validation.mjs';

const HELP = `npm run validate -- [--csv FILE]... [--rows ID,ID] [--quality draft|normal|fine] [--json | --markdown]

Solves each measured patch of a table and compares. Without --csv: the tables of test/published/tables.

  --csv FILE     a table with the columns of those tables; may be given several times
  --rows ID,ID   only these cases
  --quality Q    of the grid; default normal
  --json         one JSON object in a line for each row, errors to the other output
  --markdown     the tables as the README of packages/field holds them
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

const validation = await loadValidation();
const note = (text) => process.stderr.write(`${text}\n`);
let isFaulty = false;

function fault(text) {
  isFaulty = true;
  note(text);
}

function readFiles() {
  const tables = join(dirname(fileURLToPath(import.meta.url)), '..', '..', 'test', 'published', 'tables');
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
  if (values.json) return;
  const { ROW_TITLES, MEAN_TITLES, rowCells, meanCells, meanErrors } = validation;
  const table = values.markdown ? validation.markdownTable : validation.textTable;
  console.log(table(ROW_TITLES, reports.map(rowCells)));
  console.log();
  console.log(table(MEAN_TITLES, meanErrors(reports).map(meanCells)));
}

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
  if (values.json) return;
  const table = values.markdown ? validation.markdownTable : validation.textTable;
  console.log(table(validation.CONVERGENCE_TITLES, found.map(validation.convergenceCells)));
}

const rows = chosenRows();
if (values.convergence) await converge(rows);
else await compare(rows);
process.exit(isFaulty ? 1 : 0);
