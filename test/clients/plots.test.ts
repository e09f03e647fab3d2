import { figureSvg } from '@sheetwave/emit-svg';
import { type ReflectionCurve, reflectionChart, smithChart } from '@sheetwave/plots';
import { expect, test } from 'vitest';
import { circuit, samplePlots } from '../golden/sample-plots.ts';
import { describeWithClients, runClient } from './client.ts';
import { withFile } from './dxf-clients.ts';
import { inkInRsvg, xmlComplaints } from './svg-clients.ts';

/** The value of an XPath expression as xmllint, which knows nothing of us, finds it. */
function found(svg: Uint8Array, path: string): string {
  return withFile('plot.svg', svg, (file) => {
    const ended = runClient('xmllint', ['--nonet', '--xpath', `string(${path})`, file]);
    if (ended.status !== 0) throw new Error(ended.stderr);
    return ended.stdout.trim();
  });
}

const named = (id: string) => `//*[@id="${id}"]`;

/** Points of a path of straight lines, mm from the upper left of the page. */
const pointsOf = (data: string) =>
  [...data.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => ({ x: Number(x), y: Number(y) }));

const steady = (re: number, im: number): ReflectionCurve => ({
  name: 'steady',
  freqHz: [5.7e9, 5.8e9, 5.9e9],
  reflection: [5.7e9, 5.8e9, 5.9e9].map(() => ({ re, im })),
  referenceOhm: 50,
});

describeWithClients(['xmllint'], 'diagrams in xmllint', () => {
  test.each(Object.keys(samplePlots))('%s is well formed', (name) => {
    const figure = samplePlots[name];
    if (figure === undefined) throw new Error(`no ${name}`);
    expect(xmlComplaints(figureSvg(figure))).toBe('');
  });

  test('10 dB lies half way down an axis of 20 dB', () => {
    const svg = figureSvg(reflectionChart({ curves: [steady(10 ** (-10 / 20), 0)] }, { title: 'x' }));
    const frame = pointsOf(found(svg, `${named('plot-frame')}/@d`)).map(({ y }) => y);
    const [floor, roof] = [Math.max(...frame), Math.min(...frame)];
    // The numbers of the axis stand at its marks: 0 dB at the top and 20 below at the bottom.
    const height = (text: string) => Number(found(svg, `//*[local-name()="text"][.="${text}"]/@y`));
    expect(height('\u221220') - height('0')).toBeCloseTo(floor - roof, 3);
    const curve = pointsOf(found(svg, `${named('plot-curve-1')}/*/@d`));
    expect(curve.map(({ y }) => y)).toEqual(curve.map(() => expect.closeTo((floor + roof) / 2, 3)));
    expect(curve).toHaveLength(3);
  });
});

describeWithClients(['rsvg-convert', 'python-images', 'xmllint'], 'diagrams in librsvg', () => {
  // (Z - Z0)/(Z + Z0) by hand: where a Smith chart has each.
  test.each([
    ['a match', 0, 0],
    ['a short', -1, 0],
    ['an open end', 1, 0],
    ['j50 ohm', 0, 1],
    ['-j50 ohm', 0, -1],
  ])('%s is a dot where the chart has it', (_, re, im) => {
    const svg = figureSvg(
      smithChart({ curves: [steady(re, im)], marks: [{ freqHz: 5.8e9, label: '' }] }, { title: 'x' }),
    );
    const rim = `(${named('plot-grid')}/*[local-name()="circle"])[last()]`;
    const [x = 0, y = 0, radius = 0] = ['cx', 'cy', 'r'].map((key) => Number(found(svg, `${rim}/@${key}`)));
    const place = [x + re * radius, y - im * radius] as const;
    // The line of the chart through the dot moves the centre of the ink a little.
    const { holes } = inkInRsvg(svg, { bars: [], holes: [[...place, 1.8]] });
    expect(Math.hypot((holes[0]?.[0] ?? 0) - place[0], (holes[0]?.[1] ?? 0) - place[1])).toBeLessThan(0.25);
  });

  test('a resonance is darkest ink at its frequency', () => {
    // R = 50 ohm at 5.8 GHz: a perfect match, so the curve leaves through the floor there, half way along 5.0 to 6.6 GHz.
    const curve = circuit('x', { ohm: 50, freqHz: 5.8e9, quality: 14 });
    const svg = figureSvg(reflectionChart({ curves: [curve] }, { title: 'x' }));
    const frame = pointsOf(found(svg, `${named('plot-frame')}/@d`));
    const [left, right] = [Math.min(...frame.map(({ x }) => x)), Math.max(...frame.map(({ x }) => x))];
    const floor = Math.max(...frame.map(({ y }) => y));
    const middle = (left + right) / 2;
    // One millimetre above the floor both flanks of the notch are lines of 0.55 mm; 10 mm to the side there is nothing.
    const above = [floor - 3, floor - 2] as const;
    const { bars } = inkInRsvg(svg, {
      bars: [
        [middle - 3, above[0], middle + 3, above[1]],
        [middle + 10, above[0], middle + 16, above[1]],
      ],
      holes: [],
    });
    expect(bars[0]).toBeGreaterThan(0.8);
    expect(bars[1]).toBeLessThan(0.3);
  });
});
