import type { Figure } from '@sheetwave/drawings';
import { checkedResponse } from '@sheetwave/rf';
import { describe, expect, test } from 'vitest';
import { type Mark, recordingPen } from '../testing/recording-pen.ts';
import { seriesResonator } from '../testing/sample-curves.ts';
import { barChart } from './bar-chart.ts';
import { gainChart } from './gain-chart.ts';
import { polarChart } from './polar-chart.ts';
import { impedanceChart, reflectionChart, vswrChart } from './reflection-charts.ts';
import { magnitudeBand, reflectionAt, reflectionCurve } from './reflection-curve.ts';
import { smithChart } from './smith-chart.ts';
import { xyChart } from './xy-chart.ts';

const title = { title: 'A diagram' };

function marksOf(figure: Figure): readonly Mark[] {
  const { pen, marks } = recordingPen();
  figure.draw(pen);
  return marks;
}

const linesOf = (marks: readonly Mark[], group: string) =>
  marks.flatMap((mark) => (mark.kind === 'line' && mark.group === group ? [mark.points] : []));
const textsOf = (marks: readonly Mark[]) => marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []));

function frameOf(marks: readonly Mark[]) {
  const [frame] = marks.flatMap((mark) => (mark.kind === 'box' && mark.group === 'plot-axes' ? [mark.box] : []));
  if (frame === undefined) throw new Error('no frame');
  return frame;
}

const sweep = { lowHz: 5e9, highHz: 6e9, points: 101 };
const constant = (size: number) => ({
  name: 'constant',
  freqHz: [5e9, 5.5e9, 6e9],
  reflection: [5e9, 5.5e9, 6e9].map(() => ({ re: size, im: 0 })),
  referenceOhm: 50,
});

describe('reflection over frequency', () => {
  test('a perfect match leaves through the floor, total reflection runs along the top', () => {
    const sizes = [1, 0.5, 0, 0.5, 1];
    const freqHz = sizes.map((_, i) => 5e9 + i * 1e8);
    const curve = { ...constant(0), freqHz, reflection: sizes.map((re) => ({ re, im: 0 })) };
    const marks = marksOf(reflectionChart({ curves: [curve] }, title));
    const { minY, maxY } = frameOf(marks);
    const [down, up] = linesOf(marks, 'plot-curve-1');
    expect(down?.[0]?.y).toBeCloseTo(maxY, 9);
    expect(down?.at(-1)?.y).toBeCloseTo(minY, 9);
    expect(up?.[0]?.y).toBeCloseTo(minY, 9);
    const [vswrLine] = linesOf(marksOf(vswrChart({ curves: [curve] }, title)), 'plot-curve-1');
    expect(vswrLine?.[0]?.y).toBeCloseTo(maxY, 0);
  });

  test('half the frame is 10 dB where the axis goes down to 20', () => {
    const marks = marksOf(reflectionChart({ curves: [constant(10 ** (-10 / 20))] }, title));
    const { minY, maxY } = frameOf(marks);
    expect(linesOf(marks, 'plot-curve-1')[0]?.map(({ y }) => y)).toEqual(
      Array.from({ length: 3 }, () => expect.closeTo((minY + maxY) / 2, 9)),
    );
  });

  test('a VSWR of 2 is half way between 1 and 3', () => {
    // |S11| of VSWR 2 is 1/3 (any handbook).
    const marks = marksOf(vswrChart({ curves: [constant(1 / 3)] }, title));
    const { minY, maxY } = frameOf(marks);
    expect(linesOf(marks, 'plot-curve-1')[0]?.[0]?.y).toBeCloseTo((minY + maxY) / 2, 9);
    expect(textsOf(marks)).toContain('3.0');
  });

  test('the reactance of a series circuit goes through zero at its resonance', () => {
    const circuit = { name: 'x', ...seriesResonator({ ohm: 40, freqHz: 5.5e9, quality: 10 }, sweep) };
    const marks = marksOf(impedanceChart({ curves: [circuit] }, title));
    const frame = frameOf(marks);
    const [reactance] = linesOf(marks, 'plot-curve-2');
    const middle = reactance?.find(({ x }) => Math.abs(x - (frame.minX + frame.maxX) / 2) < 1e-6);
    const [resistance] = linesOf(marks, 'plot-curve-1');
    const ohm = ((resistance?.[0]?.y ?? 0) - (middle?.y ?? 0)) / 40;
    // 2 Q R times the relative detuning, a tenth up: 40 * 10 * (1.0909 - 0.9167) = 69.7 ohm.
    expect(((reactance?.at(-1)?.y ?? 0) - (middle?.y ?? 0)) / ohm).toBeCloseTo(40 * 10 * (6 / 5.5 - 5.5 / 6), 6);
  });

  test('frequencies below 1 GHz are in MHz', () => {
    const curve = { ...constant(0.5), freqHz: [4.3e8, 4.35e8, 4.4e8] };
    expect(textsOf(marksOf(reflectionChart({ curves: [curve] }, title)))).toEqual(
      expect.arrayContaining(['frequency, MHz', '430', '440']),
    );
  });
});

describe('the band of an error', () => {
  const slope = { ...constant(0), freqHz: [1e9, 2e9, 3e9], reflection: [0.2, 0.4, 0.6].map((re) => ({ re, im: 0 })) };

  test('moves the curve along frequency and up and down', () => {
    const band = magnitudeBand({ ...slope, error: { frequency: 0.1, coefficient: 0.05 } });
    // At 2 GHz: 0.36 at 1.8 GHz and 0.44 at 2.2 GHz on the straight line, 0.05 beyond each.
    expect(band?.lower[1]).toBeCloseTo(0.31, 12);
    expect(band?.upper[1]).toBeCloseTo(0.49, 12);
  });

  test('holds the values in between', () => {
    const notch = { ...slope, reflection: [0.5, 0, 0.5].map((re) => ({ re, im: 0 })), error: { frequency: 0.4 } };
    expect(magnitudeBand(notch)?.lower).toEqual([expect.closeTo(0.3, 12), 0, 0]);
    expect(magnitudeBand({ ...slope, error: {} })).toBeUndefined();
  });

  test('a passive reflection stays below 1', () => {
    expect(magnitudeBand({ ...constant(0.99), error: { coefficient: 0.05 } })?.upper[0]).toBe(1);
  });
});

test('reflection between samples lies on the line between them, and nowhere outside', () => {
  const curve = {
    ...constant(0),
    freqHz: [1, 3],
    reflection: [
      { re: 0, im: 0 },
      { re: 1, im: -1 },
    ],
  };
  expect(reflectionAt(curve, 2)).toEqual({ re: 0.5, im: -0.5 });
  expect([reflectionAt(curve, 3), reflectionAt(curve, 0.9), reflectionAt(curve, 3.1)]).toEqual([
    { re: 1, im: -1 },
    undefined,
    undefined,
  ]);
});

test('the curve of a response is that of its port', () => {
  const zero = { re: 0, im: 0 };
  const response = checkedResponse({
    origin: 'measurement',
    method: 'by hand',
    error: { origin: 'by hand' },
    freqHz: [1e9],
    referenceOhm: 75,
    s: [
      [
        [zero, zero],
        [zero, { re: 0.3, im: 0.4 }],
      ],
    ],
  });
  expect(reflectionCurve('second', response, 1)).toMatchObject({
    reflection: [{ re: 0.3, im: 0.4 }],
    look: 'ringed',
    referenceOhm: 75,
  });
  expect(() => reflectionCurve('third', response, 2)).toThrow('port must be below 2');
});

describe('Smith chart', () => {
  const place = (re: number, im: number) => {
    const marks = marksOf(
      smithChart(
        {
          curves: [
            {
              ...constant(0),
              reflection: [
                { re, im },
                { re, im },
                { re, im },
              ],
            },
          ],
          marks: [{ freqHz: 5.5e9, label: 'here' }],
        },
        title,
      ),
    );
    const circles = marks.flatMap((mark) => (mark.kind === 'circle' ? [mark] : []));
    const rim = circles
      .filter(({ group }) => group === 'plot-grid')
      .reduce((a, b) => (a.radiusMm > b.radiusMm ? a : b));
    const dot = circles.find(({ group }) => group === 'plot-marks');
    return {
      x: ((dot?.centre.x ?? Number.NaN) - rim.centre.x) / rim.radiusMm,
      y: ((dot?.centre.y ?? Number.NaN) - rim.centre.y) / rim.radiusMm,
    };
  };

  // (z - 1)/(z + 1) by hand.
  test.each([
    ['a match', 0, 0],
    ['a short', -1, 0],
    ['an open end', 1, 0],
    ['j50 ohm', 0, 1],
    ['25 ohm', -1 / 3, 0],
  ])('%s lies where the chart has it', (_, re, im) => {
    expect(place(re, im)).toEqual({ x: expect.closeTo(re, 9), y: expect.closeTo(im, 9) });
  });

  test('circles of constant resistance and arcs of constant reactance are where Smith put them', () => {
    const marks = marksOf(smithChart({ curves: [constant(0.1)] }, title));
    const circles = marks.flatMap((mark) => (mark.kind === 'circle' && mark.group === 'plot-grid' ? [mark] : []));
    const rim = circles.reduce((a, b) => (a.radiusMm > b.radiusMm ? a : b));
    // 50 ohm of 50: half the radius, half way to the right.
    expect(circles).toContainEqual(
      expect.objectContaining({
        radiusMm: rim.radiusMm / 2,
        centre: { x: rim.centre.x + rim.radiusMm / 2, y: rim.centre.y },
      }),
    );
    const ends = linesOf(marks, 'plot-grid').flatMap((points) => points.slice(0, 1));
    // j50 ohm meets the rim at the top, -j50 ohm at the bottom.
    for (const sign of [1, -1])
      expect(ends).toContainEqual({
        x: expect.closeTo(rim.centre.x, 9),
        y: expect.closeTo(rim.centre.y + sign * rim.radiusMm, 9),
      });
    for (const arc of linesOf(marks, 'plot-grid'))
      for (const { x, y } of arc)
        expect(Math.hypot(x - rim.centre.x, y - rim.centre.y)).toBeLessThan(rim.radiusMm + 1e-9);
  });

  test('what reflects more than it got ends just beyond the rim', () => {
    const curve = {
      ...constant(0),
      reflection: [
        { re: 0, im: 0 },
        { re: 0, im: 0.5 },
        { re: 0, im: 3 },
      ],
    };
    const marks = marksOf(smithChart({ curves: [curve] }, title));
    expect(linesOf(marks, 'plot-curve-1')[0]).toHaveLength(3);
  });

  test('two references in one chart are refused', () => {
    const curves = [constant(0), { ...constant(0), referenceOhm: 75 }];
    expect(() => smithChart({ curves }, title)).toThrow('not 50 and 75 ohm');
  });
});

describe('cuts of a pattern', () => {
  const cut = {
    name: 'one',
    angleRad: [0, Math.PI / 2, Math.PI, -Math.PI / 2],
    gainDbi: [10, -10, Number.NEGATIVE_INFINITY, 0],
  };

  test('lie at their angle, 10 dB apart, and no farther in than the centre', () => {
    const marks = marksOf(polarChart({ cuts: [cut], spanDb: 40 }, title));
    const [line] = linesOf(marks, 'plot-curve-1');
    const [ahead, right, back, left] = line ?? [];
    if (!(ahead && right && back && left)) throw new Error('four points were given');
    const radius = ahead.y - back.y;
    expect(ahead.x).toBeCloseTo(back.x, 9);
    expect((right.x - back.x) / radius).toBeCloseTo(0.5, 9);
    expect((back.x - left.x) / radius).toBeCloseTo(0.75, 9);
    expect(textsOf(marks)).toEqual(expect.arrayContaining(['10 dBi', '0', '−10', '−20', '90°', '180°']));
  });

  test('a missing value breaks the line; a pattern of nothing is refused', () => {
    const gainDbi = [10, 9, Number.NaN, 9, 10];
    const angleRad = [0, 1, 2, 3, 4];
    expect(
      linesOf(marksOf(polarChart({ cuts: [{ name: 'x', angleRad, gainDbi }] }, title)), 'plot-curve-1'),
    ).toHaveLength(2);
    expect(() =>
      polarChart({ cuts: [{ ...cut, gainDbi: cut.gainDbi.map(() => Number.NEGATIVE_INFINITY) }] }, title),
    ).toThrow(RangeError);
    expect(() => polarChart({ cuts: [{ ...cut, gainDbi: [1] }] }, title)).toThrow('4 angles and 1 gains');
  });
});

describe('gain over frequency', () => {
  const target = { lowHz: 5.2e9, highHz: 5.8e9, gainDbi: 8 };
  const level = (dbi: number) => [dbi, dbi, dbi];
  const plot = { freqHz: [5e9, 5.5e9, 6e9], gainDbi: level(10), realisedGainDbi: level(0), gainAheadDbi: level(9) };

  test('is drawn true to its axis, with the least that is wanted as a line', () => {
    const marks = marksOf(gainChart({ ...plot, errorDb: 0.4, target }, title));
    const frame = frameOf(marks);
    // From 0 - 0.4 - 0.5 down to the whole decibel, -1, to 10 + 0.9 up to 11: 10 dBi lies 11 twelfths up, 0 dBi one.
    const up = (share: number) => frame.minY + share * (frame.maxY - frame.minY);
    expect(linesOf(marks, 'plot-curve-1')[0]?.[0]?.y).toBeCloseTo(up(11 / 12), 9);
    expect(linesOf(marks, 'plot-curve-2')[0]?.[0]?.y).toBeCloseTo(up(1 / 12), 9);
    expect(textsOf(marks)).toEqual(expect.arrayContaining(['gain, dBi', 'wanted: 8 dBi', 'with mismatch as well']));
  });
  test('what lies far below runs off the floor instead of flattening the rest', () => {
    const marks = marksOf(gainChart({ ...plot, realisedGainDbi: [0, -60, 0], target }, title));
    const frame = frameOf(marks);
    const heights = linesOf(marks, 'plot-curve-2').flatMap((points) => points.map(({ y }) => y));
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(frame.minY - 1e-9);
    expect(linesOf(marks, 'plot-curve-2')).toHaveLength(2);
  });
  test('lists that do not fit are refused', () => {
    expect(() => gainChart({ ...plot, gainDbi: [1], target }, title)).toThrow('needs 3 values');
  });
});

describe('bars', () => {
  test('are as long as their values and end in them', () => {
    const bars = [
      { name: 'first', value: -20, error: 1 },
      { name: 'second', value: 5 },
      { name: 'third', value: 0 },
    ];
    const marks = marksOf(barChart({ bars, label: 'MHz' }, title));
    const boxes = marks.flatMap((mark) => (mark.kind === 'box' ? [mark.box] : []));
    const [first, second] = boxes;
    if (!(first && second)) throw new Error('two bars have a length');
    expect(boxes).toHaveLength(2);
    expect((first.maxX - first.minX) / (second.maxX - second.minX)).toBeCloseTo(4, 9);
    expect(first.maxX).toBeCloseTo(second.minX, 9);
    expect(textsOf(marks)).toEqual(expect.arrayContaining(['−20.0', '5.0', '0.0', 'MHz']));
  });

  test('all zero is drawn; none and infinite ones are refused', () => {
    expect(textsOf(marksOf(barChart({ bars: [{ name: 'x', value: -0 }], label: 'mm' }, title)))).toContain('0.0');
    expect(() => barChart({ bars: [], label: 'mm' }, title)).toThrow(RangeError);
    expect(() => barChart({ bars: [{ name: 'x', value: Number.NaN }], label: 'mm' }, title)).toThrow('"x"');
  });
});

describe('any chart', () => {
  const axes = { x: { label: 'm', from: 0, to: 10 }, y: { label: 'm', from: 0, to: 10 } };

  test('the band of a curve is cut to the frame and breaks where a value is missing', () => {
    const points = [0, 2, 4, 6, 8, 10].map((x) => ({ x, y: 5 }));
    const band = { lower: [4, 4, 4, Number.NaN, 4, 4], upper: [6, 60, 6, 6, 6, 6] };
    const marks = marksOf(xyChart({ ...axes, curves: [{ name: 'x', points, band }] }, title));
    const areas = marks.flatMap((mark) => (mark.kind === 'area' && mark.group === 'plot-areas' ? [mark.points] : []));
    expect(areas).toHaveLength(2);
    const { maxY } = frameOf(marks);
    for (const { y } of areas.flat()) expect(y).toBeLessThanOrEqual(maxY + 1e-9);
  });

  test('a band of another length, an empty span and a figure too small are refused', () => {
    const curves = [{ name: 'x', points: [{ x: 0, y: 0 }], band: { lower: [], upper: [] } }];
    expect(() => xyChart({ ...axes, curves }, title)).toThrow('the band of "x" must have 1 values');
    expect(() => xyChart({ ...axes, x: { label: 'm', from: 1, to: 1 }, curves: [] }, title)).toThrow(RangeError);
    expect(() => xyChart({ ...axes, curves: [] }, { ...title, widthMm: 20 })).toThrow('widthMm must be 40 to 2000');
  });
});
