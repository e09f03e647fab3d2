import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addToLog, logLine, readBuildLog } from './build-log.ts';
import type { LogEntry } from './log-entry.ts';

const digest = (text: string) => createHash('sha256').update(text).digest('hex');
const bytesOf = (text: string) => new TextEncoder().encode(text);
const SUM = 'ab'.repeat(32);

const entry = (number: number, note: string): LogEntry => ({
  number,
  date: '2026-05-17',
  design: { file: `designs/${number}.toml`, sha256: SUM, name: 'Heron Lock', revision: 'A' },
  measuredMm: { 'layer[0].length': 22.1 },
  note,
});

const notes = fc.array(fc.string({ unit: 'grapheme', maxLength: 12 }), { minLength: 1, maxLength: 4 });
const logOf = (texts: readonly string[]) => texts.map((note, i) => logLine(entry(i + 1, note), digest)).join('');

/** What the cli does with an addition. */
function added(bytes: Uint8Array, note: string): Uint8Array {
  const { number: _, ...rest } = entry(1, note);
  const addition = addToLog(readBuildLog(bytes, digest), rest, digest);
  return new Uint8Array([...bytes.subarray(0, addition.keepBytes), ...bytesOf(addition.text)]);
}

describe('the build log', () => {
  it('gives back what was put in', () => {
    fc.assert(
      fc.property(notes, (texts) => {
        const log = readBuildLog(bytesOf(logOf(texts)), digest);
        expect(log.entries).toEqual(texts.map((note, i) => entry(i + 1, note)));
        expect(log.findings).toEqual([]);
        expect(log.tornBytes).toBe(0);
      }),
      { seed: 1 },
    );
  });

  it('cut off at any byte keeps every earlier entry, and the next entry repairs it', () => {
    const texts = ['first', 'zweite Kürzung, 0.2 mm', 'third \n line'];
    const bytes = bytesOf(logOf(texts));
    const ends = texts.map((_, i) => bytesOf(logOf(texts.slice(0, i + 1))).length);
    for (let cut = 0; cut <= bytes.length; cut++) {
      const part = bytes.subarray(0, cut);
      const log = readBuildLog(part, digest);
      // The line break belongs to the next line: an entry is there one byte before it.
      const whole = ends.filter((end) => end - 1 <= cut).length;
      expect(log.entries.map(({ note }) => note)).toEqual(texts.slice(0, whole));
      expect(log.findings.map(({ code }) => code)).toEqual(log.tornBytes > 0 ? ['torn-entry'] : []);
      const mended = readBuildLog(added(part, 'again'), digest);
      expect(mended.findings).toEqual([]);
      expect(mended.entries.map(({ note, number }) => [note, number])).toEqual(
        [...texts.slice(0, whole), 'again'].map((note, i) => [note, i + 1]),
      );
    }
  });

  it('with a tail of noughts, as some disks leave one, is repaired the same way', () => {
    const bytes = new Uint8Array([...bytesOf(logOf(['one'])), 0, 0, 0, 0]);
    expect(readBuildLog(bytes, digest).tornBytes).toBe(4);
    expect(readBuildLog(added(bytes, 'two'), digest).entries).toHaveLength(2);
  });

  it('with any byte changed never throws, tells it, and loses no other entry', () => {
    const texts = ['one', 'two', 'three'];
    const bytes = bytesOf(logOf(texts));
    fc.assert(
      fc.property(fc.integer({ min: 0, max: bytes.length - 2 }), fc.integer({ min: 1, max: 255 }), (at, by) => {
        const changed = Uint8Array.from(bytes);
        changed[at] = (changed[at] ?? 0) ^ by;
        const log = readBuildLog(changed, digest);
        expect(log.findings.length).toBeGreaterThan(0);
        expect(log.entries.length).toBeGreaterThanOrEqual(1);
        for (const one of log.entries) expect(one).toEqual(entry(one.number, texts[one.number - 1] ?? ''));
        // A changed line is left where it is.
        const after = added(changed, 'four');
        expect(after.subarray(0, log.wholeBytes)).toEqual(changed.subarray(0, log.wholeBytes));
      }),
      { seed: 3, numRuns: 300 },
    );
  });

  it('tells a line that was taken out and one that was edited, with its line', () => {
    const lines = logOf(['one', 'two', 'three']).split('\n');
    const without = readBuildLog(bytesOf([lines[0], lines[2], ''].join('\n')), digest);
    expect(without.findings.map(({ code, value }) => [code, value])).toEqual([['entry-gap', 'entry 3']]);
    const edited = readBuildLog(bytesOf(lines.join('\n').replace('two', 'too')), digest);
    expect(edited.findings.map(({ code, line }) => [code, line])).toEqual([
      ['broken-entry', 2],
      ['entry-gap', undefined],
    ]);
    const lastEdited = readBuildLog(bytesOf(lines.join('\n').replace('three', 'there')), digest);
    expect(lastEdited.findings.map(({ code }) => code)).toEqual(['broken-entry']);
    expect(lastEdited.tornBytes).toBe(0);
  });

  it('takes no file name that leads out of its folder', () => {
    for (const file of ['../design.toml', '/etc/passwd', 'designs/../x', 'designs/.x', 'designs\\x']) {
      const sly = { ...entry(1, ''), design: { ...entry(1, '').design, file } };
      expect(readBuildLog(bytesOf(logLine(sly, digest)), digest).findings.map(({ code }) => code)).toEqual([
        'broken-entry',
      ]);
    }
  });
});
