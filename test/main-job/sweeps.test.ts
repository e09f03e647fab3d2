import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { exampleText, newFolder, sheetwave, snapshot } from './command.ts';

/** A dip at 5.5 GHz typed by hand: a reflection of 0.1 between 0.9 on both sides, VSWR 1.1/0.9 = 1.22. */
const SWEEP =
  '# GHz S MA R 50\n5.3 0.9 0\n5.4 0.7 -20\n5.47 0.3 -40\n5.5 0.1 -60\n5.53 0.3 -80\n5.6 0.7 -100\n5.7 0.9 -120\n';

it('a sweep is compared with the design and kept in its log', async () => {
  const cwd = newFolder();
  writeFileSync(join(cwd, 'design.toml'), exampleText('etched-2x2-5g5'));
  writeFileSync(join(cwd, 'sweep.s1p'), SWEEP);
  const compared = await sheetwave(['compare', 'design.toml', 'sweep.s1p', '--plots', 'plots', '--json'], {
    cwd,
    env: { XDG_CACHE_HOME: join(cwd, 'cache') },
  });
  expect(compared.code).toBe(0);
  const { comparison, findings } = JSON.parse(compared.stdout);
  expect(comparison.measured.inBand.best.vswr).toBeCloseTo(1.1 / 0.9, 6);
  expect(comparison.meetsTarget).toBe(true);
  expect(findings.map(({ code }: { code: string }) => code)).toEqual(['few-points']);
  expect(snapshot(cwd).has('plots/vswr.svg')).toBe(true);
  const logged = await sheetwave(['log', 'design.toml', 'add', '--sweep', 'sweep.s1p', '--note', 'first'], { cwd });
  expect([logged.code, logged.stderr]).toEqual([0, '']);
  expect(snapshot(cwd).has('build-log/log.jsonl')).toBe(true);
});
