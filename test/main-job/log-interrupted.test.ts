import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { readBuildLog } from '@sheetwave/bench';
import { expect, it } from 'vitest';
import { numbersFrom } from '../fuzz/random.ts';
import { ended, exampleText, newFolder, sha256, sheetwave, startCommand } from './command.ts';

// A kill at any instant while an entry is added loses that entry at most: earlier ones stay, and each has its copies. Every single instant is
// tried in the process itself (build-log-folder.test.ts of the command); here a few times with a real kill of the whole command.

/** How many kills, and the seed of their instants; `npm run kills` asks for more. */
const KILLS = Number(process.env.SHEETWAVE_KILLS ?? 3);
const SEED = Number(process.env.SHEETWAVE_KILLS_SEED ?? 20261127);

/** Typed by hand; a comment makes each sweep a file of its own. */
const sweepText = (round: number) =>
  `! round ${round}\n# GHz S MA R 50\n5.3 0.9 0\n5.4 0.7 -20\n5.5 0.1 -60\n5.6 0.7 -100\n5.7 0.9 -120\n`;

it('a log survives being killed while it is added to', async () => {
  const cwd = newFolder();
  const folder = join(cwd, 'build-log');
  writeFileSync(join(cwd, 'design.toml'), exampleText('etched-2x2-5g5'));
  const add = (round: number) => {
    writeFileSync(join(cwd, 'sweep.s1p'), sweepText(round));
    return ['log', 'design.toml', 'add', '--sweep', 'sweep.s1p', '--note', `round ${round}`, '--date', '2026-05-17'];
  };
  const notes = () => {
    const path = join(folder, 'log.jsonl');
    const { entries } = readBuildLog(existsSync(path) ? readFileSync(path) : new Uint8Array(), sha256);
    for (const { design, sweep } of entries)
      for (const kept of [design, sweep])
        if (kept !== undefined) expect(sha256(readFileSync(join(folder, kept.file)))).toBe(kept.sha256);
    return entries.map(({ note }) => note);
  };
  const start = performance.now();
  expect((await sheetwave(add(0), { cwd })).code).toBe(0);
  const took = performance.now() - start;
  const random = numbersFrom(SEED);
  let before = notes();
  for (let round = 1; round <= KILLS; round += 1) {
    const child = startCommand(add(round), { cwd });
    const end = ended(child);
    // Most of the time goes into the start; the writing is at the end.
    await pause(took * (0.5 + 0.6 * random()));
    child.kill('SIGKILL');
    const { code } = await end;
    const now = notes();
    expect([before, [...before, `round ${round}`]]).toContainEqual(now);
    if (code === 0) expect(now.length).toBe(before.length + 1);
    before = now;
  }
  expect((await sheetwave(add(KILLS + 1), { cwd })).code).toBe(0);
  expect(notes()).toEqual([...before, `round ${KILLS + 1}`]);
});
