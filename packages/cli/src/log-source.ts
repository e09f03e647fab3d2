import { basename } from 'node:path';
import type { HistorySource, LogEntry } from '@sheetwave/bench';
import { type Finding, readDesign } from '@sheetwave/design';
import type { Response } from '@sheetwave/rf';
import { keptBytes } from './build-log-folder.ts';
import type { Context } from './context.ts';
import { textOf } from './read-input.ts';
import { sweepOfBytes } from './read-sweep.ts';
import { findingLines } from './report.ts';

/** What is needed to read a log's copies. */
export interface Around {
  readonly folder: string;
  readonly drawings: Readonly<Record<string, string>>;
  readonly context: Context;
  readonly lost: Finding[];
}

/** An entry with its design and its sweep; a copy that is gone or changed is told, and added to `lost`. */
export async function sourceOf(entry: LogEntry, { folder, drawings, context, lost }: Around): Promise<HistorySource> {
  const designBytes = await keptBytes(folder, entry.design);
  const text = designBytes === undefined ? undefined : textOf(designBytes);
  const sweepBytes = entry.sweep === undefined ? undefined : await keptBytes(folder, entry.sweep);
  for (const [kept, bytes] of [
    [entry.design, designBytes],
    [entry.sweep, sweepBytes],
  ] as const) {
    if (kept !== undefined && bytes === undefined) {
      lost.push({
        code: 'copy-lost',
        severity: 'warning',
        path: '',
        value: kept.file,
        allowed: `of entry ${entry.number} is gone or was changed`,
        remedy: 'put it back from a copy',
      });
    }
  }
  context.say(
    findingLines(
      lost.slice(-2).filter(({ allowed }) => allowed.startsWith(`of entry ${entry.number} `)),
      basename(folder),
      { output: context.terminal.stderr, env: context.terminal.env },
    ),
  );
  let sweep: Response | undefined;
  if (sweepBytes !== undefined && entry.sweep !== undefined) {
    const { file } = sweepOfBytes(entry.sweep.file, sweepBytes, { terminal: context.terminal, say: () => undefined });
    sweep = {
      ...file.response,
      method: `Sweep ${entry.sweep.name}.`,
      s: file.response.s.map((m) => [[m[0]?.[0] ?? { re: Number.NaN, im: Number.NaN }]]),
    };
  }
  return { entry, design: text === undefined ? undefined : readDesign(text, { files: drawings }).design, sweep };
}
