import { describe, expect, test } from 'vitest';
import { ProgressLine, timeText } from './progress-line.ts';

function watched(isTerminal: boolean) {
  const written: string[] = [];
  let time = 0;
  const line = new ProgressLine({ isTerminal, write: (text) => void written.push(text) }, () => time);
  return {
    written,
    at: (seconds: number, share: number) => {
      time = seconds;
      line.show(share, 'Solving');
    },
    clear: () => line.clear(),
  };
}

test('on a terminal one line is drawn over, with the time that is left', () => {
  const { written, at, clear } = watched(true);
  at(0, 0);
  at(10, 0.25);
  // A quarter took 10 s, so three quarters take 30 s.
  expect(written.at(-1)).toMatch(/^\rSolving: .* 25 %, about 30 s left/);
  at(10.05, 0.3);
  expect(written).toHaveLength(2);
  // An estimate of the whole that grew does not take the line back.
  at(20, 0.1);
  expect(written.at(-1)).toContain(' 30 %');
  clear();
  expect(written.at(-1)).toMatch(/^\r +\r$/);
});

test('elsewhere a plain line now and then', () => {
  const { written, at, clear } = watched(false);
  for (let second = 0; second <= 25; second += 1) at(second, second / 50);
  clear();
  expect(written).toEqual(['Solving: 20 % done, about 40 s left\n', 'Solving: 40 % done, about 30 s left\n']);
});

describe('times', () => {
  test.each([
    [0.2, 'a second'],
    [42.4, '42 s'],
    [150, '3 min'],
    [4800, '1 h 20 min'],
  ])('%f s', (seconds, text) => {
    expect(timeText(seconds)).toBe(text);
  });
});
