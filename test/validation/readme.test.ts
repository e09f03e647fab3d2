/** The tables in the README of the field solver belong to the published rows: written by `npm run validate -- --markdown`. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { readTable } from './read-table.ts';
import { MEAN_TITLES, ROW_TITLES } from './report.ts';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const readme = readFileSync(join(root, 'packages', 'field', 'README.md'), 'utf8');
const section = readme.split('<!-- measured patches -->')[1]?.split('<!-- end of measured patches -->')[0] ?? '';
const cells = section
  .split('\n')
  .filter((line) => line.startsWith('|'))
  .map((line) =>
    line
      .split('|')
      .slice(1, -1)
      .map((cell) => cell.trim()),
  );

it('has both tables, with the rows as the published tables give them', () => {
  const titles = cells.filter(([first]) => first === 'set' || first === 'case');
  expect(titles).toEqual([MEAN_TITLES, ROW_TITLES]);
  const folder = join(root, 'test', 'published', 'tables');
  const rows = readdirSync(folder).flatMap((name) => readTable(readFileSync(join(folder, name), 'utf8')).rows);
  const published = new Map(rows.map(({ caseId, measuredHz }) => [caseId, (measuredHz / 1e9).toFixed(3)]));
  const printed = cells.filter(([first = '']) => /^[A-Z]+-/.test(first) && first.length > 4 && published.has(first));
  expect(printed.length).toBeGreaterThan(30);
  for (const [caseId = '', measured, predicted, , error = ''] of printed) {
    expect(measured, caseId).toBe(published.get(caseId));
    // The error is that of the two numbers beside it.
    const percent = 100 * (Number(predicted) / Number(measured) - 1);
    expect(Math.abs(Number(error.replace('−', '-')) - percent), caseId).toBeLessThan(0.15);
  }
});
