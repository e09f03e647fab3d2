import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { CLIENT_NAMES, describeWithClients, haveClient, runClient } from './client.ts';

// What these helpers promise is checked with the shell and Node itself, so it holds with no client installed.

test('a client gets its input and gives its status and both outputs', () => {
  const ended = runClient('sh', ['-c', 'cat; echo wrong >&2; exit 3'], { input: 'plate' });
  expect(ended).toEqual({ status: 3, stdout: 'plate', stderr: 'wrong\n' });
});

test('a client runs in a home folder of its own that is gone afterwards', () => {
  const home = runClient('sh', ['-c', 'printf %s "$HOME"; ls "$HOME"']).stdout;
  expect(home).toMatch(new RegExp(`^${tmpdir()}/client-home-[^/]+$`));
  expect(runClient('ls', [home]).status).not.toBe(0);
});

test('a client over its time is ended, with the processes that it started', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'client-test-'));
  const ended = runClient('sh', ['-c', '(sleep 1; touch survived) & sleep 30'], { timeoutMs: 300, cwd: folder });
  expect(ended.status).toBe(124);
  await new Promise((resume) => setTimeout(resume, 1_200));
  expect(readdirSync(folder)).toEqual([]);
  rmSync(folder, { recursive: true });
});

test('a client that is killed or absent does not look like success', () => {
  expect(runClient('sh', ['-c', 'kill -SEGV $$']).status).toBe(139);
  const absent = runClient('no-such-client', []);
  expect(absent.status).toBe(127);
  expect(absent.stderr).toContain('test/install-clients');
});

test('a misspelt client name is an error, not a skipped test', () => {
  expect(() => haveClient('gerbw')).toThrow('unknown client gerbw');
});

describeWithClients(CLIENT_NAMES, 'every client program', () => {
  test('is there', () => {
    expect(CLIENT_NAMES.filter((name) => !haveClient(name))).toEqual([]);
  });
});
