import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

/** Cells times steps in a second on one thread of a usual machine, until it is known better. */
const USUAL_SPEED = 150e6;
/** A shorter run (cells times steps) says more of starting up than of speed, and a slower one of other work on the machine. */
const LEAST_WORK = 2e9;
const SLOWEST = USUAL_SPEED / 4;

const fileOf = (folder: string): string => join(folder, 'speed.json');

/** How fast the solver went here the last time on as many threads; undefined before. Never throws: it is only for telling the time. */
export async function knownSpeed(folder: string, threads: number): Promise<number | undefined> {
  const speeds = await readSpeeds(folder);
  const known = speeds[String(threads)];
  return typeof known === 'number' && known > SLOWEST && known < 1e12 ? known : undefined;
}

/** A guess where nothing is known. */
export const usualSpeed = (threads: number): number => USUAL_SPEED * Math.sqrt(threads);

export async function keepSpeed(
  folder: string,
  { threads, work, seconds }: { readonly threads: number; readonly work: number; readonly seconds: number },
): Promise<void> {
  const cellsPerSecond = work / seconds;
  if (!(work >= LEAST_WORK && Number.isFinite(cellsPerSecond))) return;
  const speeds = { ...(await readSpeeds(folder)), [String(threads)]: Math.round(cellsPerSecond) };
  try {
    await mkdir(folder, { recursive: true });
    await writeFile(fileOf(folder), `${JSON.stringify(speeds)}\n`);
  } catch {
    // Only the next guess of the time is worse.
  }
}

async function readSpeeds(folder: string): Promise<Readonly<Record<string, unknown>>> {
  try {
    const value: unknown = JSON.parse(await readFile(fileOf(folder), 'utf8'));
    return typeof value === 'object' && value !== null ? { ...value } : {};
  } catch {
    return {};
  }
}
