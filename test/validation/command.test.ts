/** `npm run validate` as a program sees it. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';

const script = join(dirname(fileURLToPath(import.meta.url)), '..', '..', 'scripts', 'validate', 'validate.mjs');
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'validate-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const run = (...options: string[]) => spawnSync(process.execPath, [script, ...options], { encoding: 'utf8' });

it('prints one object for each good row, tells the bad ones and fails', () => {
  const file = join(folder, 'rows.csv');
  const head =
    'case_id,patch_width_mm,resonant_length_mm,substrate_height_mm,relative_permittivity,measured_resonant_frequency_GHz';
  writeFileSync(file, `${head}\nRP-K15,11.7,12.8,3.0,2.5,6.57\nRP-X,11.7,long,3.0,2.5,6.57\n`);
  const { stdout, stderr, status } = run('--csv', file, '--json', '--quality', 'draft');
  expect(status).toBe(1);
  expect(stderr).toContain(`${file}:3: resonant_length_mm: "long": allowed is a number`);
  const lines = stdout.trim().split('\n');
  expect(lines).toHaveLength(1);
  const row = JSON.parse(lines[0] ?? '');
  expect(row.case_id).toBe('RP-K15');
  expect(row.measured_ghz).toBe(6.57);
  expect(Object.keys(row.predicted_ghz)).toEqual(['pole', 'resistance_peak', 'reactance_zero', 'least_reflection']);
  // Measured by M. Kara (1996; `memory`); the probe lifts the dip over the pole on this thick board.
  expect(Math.abs(row.error_percent)).toBeLessThan(3);
  expect(row.predicted_ghz.least_reflection).toBeGreaterThan(row.predicted_ghz.pole);
  for (const name of ['closed_form_ghz', 'seconds', 'cells']) expect(row[name], name).toBeGreaterThan(0);
});

it('keeps the table of the README whole: some rows do not replace it', () => {
  const readme = join(dirname(script), '..', '..', 'packages', 'field', 'README.md');
  const before = readFileSync(readme, 'utf8');
  const some = run('--markdown', '--rows', 'RP-K15', '--quality', 'draft');
  expect([some.status, some.stderr]).toEqual([2, expect.stringContaining('leave out --csv and --rows')]);
  const earlier = join(folder, 'earlier.jsonl');
  const none = { pole: null, resistance_peak: null, reactance_zero: null, least_reflection: null };
  const row = { case_id: 'RP-K15', set: 'RP-K', measured_ghz: 6.57, predicted_ghz_chosen: 6.57, definition: 'pole' };
  const errors = { error_percent: 0, closed_form_error_percent: 0, error_percent_by_definition: none };
  writeFileSync(earlier, JSON.stringify({ ...row, ...errors }));
  const one = run('--markdown', '--from', earlier);
  expect([one.status, one.stderr]).toEqual([1, expect.stringMatching(/left as it is; .* RP-C01,.* TP-14/)]);
  expect(readFileSync(readme, 'utf8')).toBe(before);
});

it('refuses a file that is not there and options that it does not know', () => {
  const missing = run('--csv', join(folder, 'none.csv'), '--json');
  expect(missing.status).toBe(1);
  expect(missing.stderr).toContain('cannot be read');
  expect(run('--quality', 'best').status).toBe(2);
  expect(run('--rows').status).toBe(2);
});
