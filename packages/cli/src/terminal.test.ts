import { describe, expect, it } from 'vitest';
import { paint, visible } from './terminal.ts';

describe('text of a stranger', () => {
  it.each([
    ['a\u001b[31mb', 'a\\u{1b}[31mb'],
    ['a\nb\r\tc', 'a\\nb\\r\\tc'],
    ['right\u202eleft', 'right\\u{202e}left'],
    ['\u0007\u007f\u009b', '\\u{7}\\u{7f}\\u{9b}'],
    ['Heron Lock Ø 3 µm — ok', 'Heron Lock Ø 3 µm — ok'],
  ])('%j is shown as %s', (text, shown) => {
    expect(visible(text)).toBe(shown);
  });
  it('keeps its lines on request', () => {
    expect(visible('a\nb\u001b', true)).toBe('a\nb\\u{1b}');
  });
});

describe('colours', () => {
  const output = (isTerminal: boolean) => ({ isTerminal, write: () => undefined });
  it('stand on a terminal only, and not where NO_COLOR or a dumb terminal asks for none', () => {
    expect(paint('error', 'error', { output: output(true), env: {} })).toBe('\u001b[31merror\u001b[0m');
    expect(paint('error', 'error', { output: output(true), env: { NO_COLOR: '' } })).toContain('\u001b');
    expect(paint('error', 'error', { output: output(true), env: { NO_COLOR: '1' } })).toBe('error');
    expect(paint('error', 'error', { output: output(true), env: { TERM: 'dumb' } })).toBe('error');
    expect(paint('error', 'error', { output: output(false), env: {} })).toBe('error');
  });
});
