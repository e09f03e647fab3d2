import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { describeWithClients } from './client.ts';

// The built package in a real browser, as plain files without a bundler. Threads need a page that is isolated from other
// origins (the two headers below, https://html.spec.whatwg.org, "cross-origin isolation"); without, one thread is left.

interface Run {
  readonly threads: number;
  readonly name: string;
  readonly differing: number;
  readonly isPromise: boolean;
}
interface Report {
  readonly failure?: string;
  readonly isIsolated: boolean;
  readonly runs: readonly Run[];
}
interface Answer {
  readonly inPage: Report;
  readonly inWorker: Report;
}

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const PAGE = '<!doctype html><script type="module" src="/test/clients/browser-page.mjs"></script>';
const ISOLATION = { 'Cross-Origin-Opener-Policy': 'same-origin', 'Cross-Origin-Embedder-Policy': 'require-corp' };

function sendFile(response: ServerResponse, path: string, headers: Record<string, string>): void {
  try {
    const body = path === '/' ? PAGE : readFileSync(join(ROOT, normalize(path)));
    const type = path === '/' ? 'text/html' : 'text/javascript';
    response.writeHead(200, { ...headers, 'Content-Type': type }).end(body);
  } catch {
    response.writeHead(404).end();
  }
}

/** Serves the project's files, and hands over what the page posts. */
function serve(headers: Record<string, string>, onAnswer: (answer: Answer) => void): Promise<Server> {
  const server = createServer((request, response) => {
    if (request.method !== 'POST') return sendFile(response, request.url ?? '/', headers);
    let text = '';
    request.on('data', (part) => {
      text += part;
    });
    request.on('end', () => {
      response.writeHead(204).end();
      onAnswer(JSON.parse(text));
    });
  });
  return new Promise((resolve) => server.listen(0, '127.0.0.1', () => resolve(server)));
}

function openBrowser(url: string, home: string): ChildProcess {
  const quiet = ['--headless=new', '--no-sandbox', '--disable-gpu', '--disable-dev-shm-usage', '--no-first-run'];
  const args = [...quiet, `--user-data-dir=${home}`, '--remote-debugging-port=0', url];
  return spawn('chromium', args, { detached: true, stdio: 'ignore', env: { ...process.env, HOME: home } });
}

/** With all that it started; nothing when it has ended by itself. */
function endBrowser(browser: ChildProcess | undefined): void {
  if (browser?.pid !== undefined && browser.exitCode === null) process.kill(-browser.pid, 'SIGKILL');
}

async function visit(headers: Record<string, string>): Promise<Answer> {
  const home = mkdtempSync(join(tmpdir(), 'browser-home-'));
  let browser: ChildProcess | undefined;
  let server: Server | undefined;
  try {
    return await new Promise<Answer>((resolve, reject) => {
      const late = setTimeout(() => reject(new Error('The page did not answer in time.')), 90_000);
      const answered = (answer: Answer) => {
        clearTimeout(late);
        resolve(answer);
      };
      serve(headers, answered).then((started) => {
        server = started;
        browser = openBrowser(`http://127.0.0.1:${(started.address() as AddressInfo).port}/`, home);
        browser.on('error', reject);
      }, reject);
    });
  } finally {
    server?.closeAllConnections();
    server?.close();
    endBrowser(browser);
    rmSync(home, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}

const bitsDiffer = ({ runs }: Report) => runs.filter(({ differing }) => differing > 0);

describeWithClients(['chromium'], 'the field kernels in a browser', () => {
  test('an isolated page runs them on several threads, and waits for none itself', async () => {
    const { inPage, inWorker } = await visit(ISOLATION);
    for (const report of [inPage, inWorker]) {
      expect(report.failure).toBeUndefined();
      expect(report.isIsolated).toBe(true);
      expect(report.runs.map(({ threads }) => threads)).toEqual([1, 2, 3]);
      expect(bitsDiffer(report)).toEqual([]);
    }
    expect(inPage.runs.map(({ isPromise }) => isPromise)).toEqual([false, true, true]);
    expect(inWorker.runs.map(({ isPromise }) => isPromise)).toEqual([false, false, false]);
  });

  test('a page that is not isolated runs them on one', async () => {
    const { inPage, inWorker } = await visit({});
    for (const report of [inPage, inWorker]) {
      expect(report.failure).toBeUndefined();
      expect(report.runs.map(({ threads }) => threads)).toEqual([1]);
      expect(bitsDiffer(report)).toEqual([]);
    }
  });
});
