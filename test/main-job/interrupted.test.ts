import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { beforeAll, describe, expect, it } from 'vitest';
import { numbersFrom } from '../fuzz/random.ts';
import { ended, exampleText, newFolder, ROOT, sheetwave, snapshot, startCommand } from './command.ts';
import { designTextOf, faultsOfPack } from './whole-pack.ts';

// A kill, Ctrl-C or a power cut at any instant leaves the earlier pack or the new one, whole.

const ONE = exampleText('laser-single-2g4');
const TWO = ONE.replace('revision = "A"', 'revision = "B"');

/** How many kills, and the seed of their instants; `npm run kills` asks for more. */
const KILLS = Number(process.env.SHEETWAVE_KILLS ?? 0);
const SEED = Number(process.env.SHEETWAVE_KILLS_SEED ?? 20261125);

/** The folder that holds the pack just after a kill: its own, or the one that it was set aside to. */
function placeOfPack(top: string): string {
  if (existsSync(join(top, 'p'))) return join(top, 'p');
  const aside = readdirSync(top).filter((name) => name.startsWith('.p.previous-'));
  expect(aside.length).toBe(1);
  return join(top, aside[0] ?? '');
}

describe('a kill while packs are written in turn', () => {
  const top = newFolder();
  const packs = join(newFolder(), 'packs.json');

  beforeAll(async () => {
    const cwd = newFolder();
    await sheetwave(['make', '-', '--out', 'one'], { cwd, input: ONE });
    await sheetwave(['make', '-', '--out', 'two'], { cwd, input: TWO });
    writeFileSync(packs, JSON.stringify(['one', 'two'].map((name) => filesOf(join(cwd, name)))));
  });

  it.each(Array.from({ length: KILLS || 30 }, (_, i) => i + 1))('number %i', async (round) => {
    const child = spawn(process.execPath, [join(ROOT, 'test', 'main-job', 'write-in-turn.mjs'), join(top, 'p'), packs]);
    await started(child);
    await pause(120 * numbersFrom(SEED + round)());
    child.kill('SIGKILL');
    await once(child, 'close');
    const place = placeOfPack(top);
    expect(faultsOfPack(place)).toEqual([]);
    expect([ONE, TWO]).toContain(designTextOf(place));
  });

  it('after all of them the next run tidies up', async () => {
    const result = await sheetwave(['make', '-', '--out', 'p'], { cwd: top, input: TWO });
    expect([result.code, designTextOf(join(top, 'p')), readdirSync(top)]).toEqual([0, TWO, ['p']]);
    expect(faultsOfPack(join(top, 'p'))).toEqual([]);
  });
});

function filesOf(folder: string): object[] {
  return [...snapshot(folder)]
    .filter(([, word]) => word !== 'folder')
    .map(([path]) => ({ path, kind: '', base64: readFileSync(join(folder, path)).toString('base64') }));
}

async function started(child: ChildProcess): Promise<void> {
  let failure = '';
  child.stderr?.on('data', (text) => {
    failure += text;
  });
  await Promise.race([
    once(child.stdout ?? child, 'data'),
    once(child, 'close').then(() => Promise.reject(new Error(`it ended by itself: ${failure}`))),
  ]);
}

describe.each(['SIGKILL', 'SIGINT', 'SIGTERM'] as const)('%s at any instant of the whole command', (signal) => {
  it('leaves the earlier pack or the new one', async () => {
    const cwd = newFolder();
    const took = await timeOfFirst(cwd);
    const random = numbersFrom(SEED + signal.length * 7919);
    let texts = [ONE, TWO];
    for (let round = 0; round < (KILLS || 6); round += 1) {
      const child = startCommand(['make', '-', '--out', 'p'], { cwd, input: texts[1] ?? '' });
      const end = ended(child);
      await pause(took * 1.1 * random());
      child.kill(signal);
      const { code, signal: by } = await end;
      const stopped = { SIGKILL: undefined, SIGINT: 130, SIGTERM: 143 }[signal];
      expect(by === signal || code === 0 || (stopped !== undefined && code === stopped), `${code} ${by}`).toBe(true);
      const place = placeOfPack(cwd);
      expect(faultsOfPack(place)).toEqual([]);
      if (signal !== 'SIGKILL') expect(readdirSync(cwd)).toEqual(['p']);
      const now = designTextOf(place);
      expect(texts).toContain(now);
      if (code === 0) expect(now).toBe(texts[1]);
      if (now === texts[1]) texts = [...texts].reverse();
    }
  });
});

async function timeOfFirst(cwd: string): Promise<number> {
  const start = performance.now();
  const { code } = await sheetwave(['make', '-', '--out', 'p'], { cwd, input: ONE });
  expect(code).toBe(0);
  return performance.now() - start;
}
