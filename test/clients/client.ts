import { spawnSync } from 'node:child_process';
import { accessSync, constants, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { describe, test } from 'vitest';

/** The Debian interpreter: the only one that sees Debian's Python modules. */
const DEBIAN_PYTHON = '/usr/bin/python3';

/** Inkscape's own DXF importer, which it runs as a separate script. */
const INKSCAPE_DXF_IMPORTER = '/usr/share/inkscape/extensions/dxf_input.py';

const onPath = (command: string) => () =>
  (process.env.PATH ?? '').split(delimiter).some((folder) => folder !== '' && isExecutable(join(folder, command)));

const pythonImports = (modules: string) => () =>
  existsSync(DEBIAN_PYTHON) && spawnSync(DEBIAN_PYTHON, ['-c', `import ${modules}`], { stdio: 'ignore' }).status === 0;

const PRESENT: Readonly<Record<string, () => boolean>> = {
  ezdxf: pythonImports('ezdxf'),
  librecad: onPath('librecad'),
  inkscape: onPath('inkscape'),
  'inkscape-dxf': () => existsSync(INKSCAPE_DXF_IMPORTER) && pythonImports('lxml, cssselect, tinycss2, numpy')(),
  gerbv: onPath('gerbv'),
  admesh: onPath('admesh'),
  'prusa-slicer': onPath('prusa-slicer'),
  'rsvg-convert': onPath('rsvg-convert'),
  xmllint: onPath('xmllint'),
  mutool: onPath('mutool'),
  qpdf: onPath('qpdf'),
  pdfinfo: onPath('pdfinfo'),
  pdffonts: onPath('pdffonts'),
  pdftotext: onPath('pdftotext'),
  pdftocairo: onPath('pdftocairo'),
  unzip: onPath('unzip'),
  chromium: onPath('chromium'),
  'python-images': pythonImports('numpy, PIL'),
};

/** Every client name that `haveClient` and `describeWithClients` know. */
export const CLIENT_NAMES: readonly string[] = Object.keys(PRESENT);

const known = new Map<string, boolean>();

/**
 * Whether a client program is installed. `ezdxf` is the module of Debian's Python, `inkscape-dxf` is Inkscape's DXF
 * importer, `python-images` is numpy with PIL (pixel counting); every other name is a command on the PATH.
 *
 * @throws Error for a name outside `CLIENT_NAMES`, so that a misspelt name cannot skip a test.
 */
export function haveClient(name: string): boolean {
  const present = PRESENT[name];
  if (present === undefined) throw new Error(`unknown client ${name}; known: ${CLIENT_NAMES.join(', ')}`);
  const answer = known.get(name) ?? present();
  known.set(name, answer);
  return answer;
}

export interface ClientOptions {
  /** Time limit in milliseconds; default 60 000. */
  readonly timeoutMs?: number;
  readonly cwd?: string;
  /** Added to the environment of this process. */
  readonly env?: Readonly<Record<string, string>>;
  /** Standard input; default nothing. */
  readonly input?: string;
}

export interface ClientResult {
  /** Exit status; 124 at the time limit, 127 when the command is not installed, 128 + signal when it was killed. */
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Signal numbers a crashing client may end with (POSIX.1, `kill`). */
const SIGNALS: Readonly<Record<string, number>> = { SIGABRT: 6, SIGBUS: 7, SIGFPE: 8, SIGKILL: 9, SIGSEGV: 11 };

/**
 * Runs a client program to its end, in an empty home folder and without a display, so that the settings of whoever
 * runs the tests cannot change what it says. At the time limit the command and everything that it started are killed.
 */
export function runClient(command: string, args: readonly string[], options: ClientOptions = {}): ClientResult {
  const home = mkdtempSync(join(tmpdir(), 'client-home-'));
  try {
    return run(command, args, { ...options, env: { ...quietEnvironment(home), ...options.env } });
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
}

function run(command: string, args: readonly string[], options: ClientOptions): ClientResult {
  // Its own process group: what a launcher script has started would outlive a kill of the script alone.
  const ownGroup = { detached: true };
  const ended = spawnSync(command, args, {
    ...ownGroup,
    encoding: 'utf8',
    timeout: options.timeoutMs ?? 60_000,
    killSignal: 'SIGKILL',
    maxBuffer: 2 ** 28,
    input: options.input ?? '',
    env: { ...process.env, ...options.env },
    ...(options.cwd === undefined ? {} : { cwd: options.cwd }),
  });
  killGroup(ended.pid);
  const stdout = ended.stdout ?? '';
  const stderr = ended.stderr ?? '';
  const reason = ended.error === undefined ? '' : (ended.error as NodeJS.ErrnoException).code;
  if (reason === 'ENOENT')
    return { status: 127, stdout, stderr: `${command} is not installed; run test/install-clients` };
  if (reason === 'ETIMEDOUT') return { status: 124, stdout, stderr: `${stderr}\n${command} did not end in time` };
  // A client that closes its input early is no failure of the client; anything else is one of ours.
  if (ended.error !== undefined && reason !== 'EPIPE') throw ended.error;
  return { status: ended.status ?? 128 + (SIGNALS[ended.signal ?? ''] ?? 0), stdout, stderr };
}

/**
 * A `describe` block that needs client programs. When one is missing the block is skipped, its title saying which;
 * where the environment has `CI` set, it fails instead, because there nobody would see that it was skipped.
 */
export function describeWithClients(names: readonly string[], title: string, body: () => void): void {
  const missing = names.filter((name) => !haveClient(name));
  if (missing.length === 0) {
    describe(title, body);
    return;
  }
  const lack = `missing: ${missing.join(', ')}; run test/install-clients`;
  if (process.env.CI) {
    describe(title, () => {
      test('has its client programs', () => {
        throw new Error(lack);
      });
    });
    return;
  }
  describe.skipIf(true)(`${title} (${lack})`, body);
}

function quietEnvironment(home: string): Record<string, string> {
  return {
    HOME: home,
    XDG_CONFIG_HOME: home,
    XDG_CACHE_HOME: home,
    XDG_DATA_HOME: home,
    XDG_RUNTIME_DIR: home,
    QT_QPA_PLATFORM: 'offscreen',
    LC_ALL: 'C.UTF-8',
  };
}

function killGroup(pid: number): void {
  if (pid <= 0) return;
  try {
    process.kill(-pid, 'SIGKILL');
  } catch {
    // Nothing of the group is left: the usual end.
  }
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
