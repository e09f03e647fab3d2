import { describe, expect, it } from 'vitest';
import { crossFigures, cutFigures } from './cut-figures.ts';
import { readTurntable } from './read-turntable.ts';

const csvOf = (level: (deg: number) => number, stepDeg = 2) =>
  Array.from({ length: 360 / stepDeg }, (_, i) => i * stepDeg)
    .map((deg) => `${deg},${level(deg > 180 ? deg - 360 : deg).toFixed(4)}`)
    .join('\n');

function figuresOf(text: string) {
  const read = readTurntable(text);
  if (!read.ok) throw new Error(JSON.stringify(read.findings));
  return cutFigures(read.turntable);
}

describe('a cut', () => {
  it('has the half-power width of a Gaussian beam, and its pointing', () => {
    // -12 (angle/width)² dB is 3.01 dB down at half of width sqrt(3.0103/3): 40 degrees become 40.07 (computed by hand).
    const found = figuresOf(csvOf((deg) => -30 + Math.max(-25, -12 * ((deg - 6) / 40) ** 2)));
    expect(found.beamwidthDeg).toBeCloseTo(40 * Math.sqrt(3.0103 / 3), 1);
    expect(found.beamDeg).toBeCloseTo(6, 1);
    expect(found.frontToBackDb).toBeCloseTo(25, 3);
    expect(found.sideLobe).toBeUndefined();
  });

  it('has the lobes of an evenly lit line of four wavelengths', () => {
    // sin x / x: half power at x = 1.3916, 50.8 degrees lambda/L for long lines; first lobe -13.26 dB (Balanis, Antenna Theory, section on
    // uniform line sources; memory). By hand: pi 4 sin(theta) = 1.3916, theta = 6.358, width 12.72 degrees; the lobe at x = 4.493:
    // sin(theta) = 0.3575, 20.95 degrees.
    const found = figuresOf(
      csvOf((deg) => {
        const x = 4 * Math.PI * Math.sin((deg * Math.PI) / 180);
        if (Math.abs(deg) > 90) return -45;
        return x === 0 ? 0 : Math.max(-45, 20 * Math.log10(Math.abs(Math.sin(x) / x)));
      }, 0.5),
    );
    expect(found.beamwidthDeg).toBeCloseTo(12.72, 1);
    expect(found.sideLobe?.levelDb).toBeCloseTo(-13.26, 1);
    expect(Math.abs(found.sideLobe?.angleDeg ?? 0)).toBeCloseTo(20.95, 0);
    expect(found.frontToBackDb).toBeCloseTo(45, 3);
  });

  it('says nothing of what was not read', () => {
    const half = csvOf((deg) => -((deg / 20) ** 2))
      .split('\n')
      .filter((line) => Number(line.split(',')[0]) <= 90);
    const found = figuresOf(half.join('\n'));
    expect([found.beamwidthDeg, found.frontToBackDb]).toEqual([undefined, undefined]);
  });
});

describe('the crossed polarisation', () => {
  it('is told against the highest reading of the wanted one', () => {
    // By hand: wanted -20 dBm straight ahead, 3.01 dB down 20.03 degrees off (12 (a/40)² = 3.0103); crossed -50 dBm all round but -45 at 10 and
    // -38 at 90 degrees.
    const rows = Array.from({ length: 72 }, (_, i) => i * 5 - 180).map((deg) => {
      const cross = deg === 10 ? -45 : deg === 90 ? -38 : -50;
      return `${deg};${-20 + Math.max(-30, -12 * (deg / 40) ** 2)};${cross}`;
    });
    const read = readTurntable(`angle;level;crossed\n${rows.join('\n')}`);
    if (!read.ok) throw new Error(JSON.stringify(read.findings));
    expect(crossFigures(read.turntable)).toEqual({
      atPeakDb: -30,
      inBeamDb: -25,
      highest: { angleDeg: 90, levelDb: -18 },
    });
    const { crossDb: _, ...plain } = read.turntable;
    expect(crossFigures({ ...plain, crossDb: undefined })).toBeUndefined();
  });
});

describe('a file of a turntable', () => {
  it.each([
    ['angle,level\n0,1\n10,x\n', 3, '"x"'],
    ['0,1\n10,NaN\n', 2, '"NaN"'],
    ['0;1;2;3\n', 1, '"0,1,2,3"'],
    ['0,1,2\n10,1\n', 2, '"10,1"'],
    ['0,1,2\n10,1,301\n', 2, '301 dB'],
    ['0,1\n900,2\n', 2, '900 degrees'],
    ['0,1\n5,2\n', 2, '2 readings'],
    ['', 1, '0 readings'],
  ])('%j is refused by line', (text, line, value) => {
    const read = readTurntable(text);
    expect(read.ok ? [] : read.findings[0]).toMatchObject({ line, value });
  });
});
