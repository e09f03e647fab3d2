/** What a build plan says of a prediction, on paper and on the screen. The prediction is invented; only what becomes of it is judged. */
import { planHtml } from '@sheetwave/emit-html';
import { planPdf } from '@sheetwave/emit-pdf';
import type { Prediction } from '@sheetwave/predict';
import { expect, test } from 'vitest';
import { exampleText, planOf } from '../plan-of-example.ts';
import { describeWithClients, runClient } from './client.ts';
import { withFile } from './dxf-clients.ts';
import { structureOf, wordsOf } from './pdf-clients.ts';
import { boxOf, type DrawnPage, tracePdf } from './pdf-trace.ts';

const freqHz = [5.7e9, 5.75e9, 5.8e9, 5.85e9, 5.9e9];
const angleDeg = Array.from({ length: 73 }, (_, index) => -180 + 5 * index);
const cut = (plane: 'vertical' | 'horizontal') => ({
  freqHz: 5.8e9,
  port: 0,
  plane,
  angleDeg,
  coDbi: angleDeg.map((angle) => 13.2 - Math.abs(angle) / 5),
  crossDbi: angleDeg.map(() => -20),
});

const prediction: Prediction = {
  feed: 'as-built',
  quality: 'normal',
  ports: [{ name: 'coax', element: undefined, referenceOhm: 50 }],
  response: {
    origin: 'prediction',
    method: 'invented',
    error: { frequency: 0.013, gainDb: 0.7, origin: 'Invented for a test.' },
    freqHz,
    referenceOhm: 50,
    s: [0.5, 0.2, 0.1, 0.3, 0.6].map((re) => [[{ re, im: 0 }]]),
  },
  zOhm: [],
  resonances: [],
  bands: [],
  matches: [
    { port: 0, lowHz: 5.725e9, highHz: 5.875e9, worstVswr: 2.46, worstHz: 5.871e9, bestVswr: 1.22, bestHz: 5.803e9 },
  ],
  figures: [
    {
      freqHz: 5.8e9,
      port: 0,
      directivityDbi: 13.6,
      gainDbi: 13.3,
      realisedGainDbi: 12.9,
      gainAheadDbi: 13.1,
      beam: { thetaDeg: 0, phiDeg: 0 } as unknown as Prediction['figures'][number]['beam'],
      beamwidthVerticalDeg: 37,
      beamwidthHorizontalDeg: 41,
      frontToBackDb: 23,
      sideLobeDb: 14,
      crossPolarisationDb: 25,
      efficiency: 0.93,
      balance: { radiated: 0.93, metal: 0.05, rest: 0.02 },
    },
  ],
  gains: [],
  cuts: [cut('vertical'), cut('horizontal')],
  coupling: undefined,
  meshError: undefined,
  cost: {
    nodes: [1, 1, 1],
    cells: 1,
    smallestCellM: 1,
    largestCellM: 1,
    timeStepS: 1,
    memoryBytes: 1,
    runs: 1,
    steps: 1,
    mirroredAcross: [],
  },
  runs: [],
  doubts: ['Swallows under the eaves are left out.'],
  findings: [],
};

/** Every number of the prediction that a builder asks for, as words: invented above, each found nowhere else in the plan. */
const SAID = [
  'frequencies ± 1.3 %',
  'gain ± 0.7 dB',
  '2.46 at 5.871 GHz',
  '1.22 at 5.803 GHz',
  '12.9',
  '13.1',
  '37°',
  '41°',
  '93 %',
  'Predicted reflection at the coax.',
  'Predicted pattern at 5.8 GHz.',
  'Swallows under the eaves are left out.',
];

const htmlOf = (of: Parameters<typeof planHtml>[0]): string => new TextDecoder().decode(planHtml(of));

const text = exampleText('brass-2x2-5g8');
const { plan, design } = planOf(text, [], prediction);
const plainPlan = planOf(text).plan;
const html = htmlOf(plan);

test('the page for the screen has its numbers, its errors and both diagrams', () => {
  const words = html.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ');
  for (const said of SAID) expect(words).toContain(said);
  expect(html.match(/<svg/g)?.length).toBe((htmlOf(plainPlan).match(/<svg/g)?.length ?? 0) + 2);
});

test('a match without end is a word', () => {
  const matches = prediction.matches.map((one) => ({ ...one, worstVswr: Number.POSITIVE_INFINITY }));
  expect(htmlOf(planOf(text, [], { ...prediction, matches }).plan)).toContain('above 20 at 5.871 GHz');
});

const single = `format = 1
name = "Orchard mast 2.4"
[band]
low = "2.4 GHz"
high = "2.4835 GHz"
[reflector]
sheet = "brass-1.0"
[[layer]]
shape = "rectangle"
length = "53 mm"
width = "60 mm"
sheet = "brass-0.5"
spacer = "m3-mf-6-brass"
[feed]
from_edge = "14 mm"
[coax]
stock = "semi-rigid-141"
`;

test('without one the sweep is shown as the closed forms have it, where they have it', () => {
  const curve = (of: typeof plan) => htmlOf(of).includes('Estimated reflection at the coax.');
  expect(curve(planOf(single).plan)).toBe(true);
  expect(curve(planOf(single, [], prediction).plan)).toBe(false);
  // No closed form answers for a stack of patches.
  expect(curve(plainPlan)).toBe(false);
});

// Invented slopes, each with what the plan must make of it by hand. The band of the single patch is 83.5 MHz wide; a patch that is cut by
// hand is held to 0.3 mm, so three steps of 0.1 mm (workshop practice, memory), its sheet to 0.03 mm (EN 1652, confirmed).
const slope = (path: string, mhzPerTenthMm: number, more: { dbPerTenthMm?: number; bend?: number } = {}) => ({
  path,
  words: '',
  setBy: 'cut' as const,
  unit: 'mm' as const,
  nominal: 1,
  step: 0.1,
  mhzPerTenthMm,
  dbPerTenthMm: 0,
  resonances: [],
  bend: 0,
  halfStep: undefined,
  ...more,
});

test('solved slopes say which dimensions matter, in the table and at the drawing of their part', () => {
  const solved = [
    // 3 x 9.1 = 27.3 MHz: more than a quarter of the band (20.9).
    slope('layer[0].length', -9.1),
    // 3 x (0.4 + 0.4 x 1/2) = 1.8 MHz: less than a twentieth (4.2); but 3 x 0.4 = 1.2 dB, which matters.
    slope('layer[0].width', -0.4, { dbPerTenthMm: 0.4, bend: 1 }),
    // 0.3 x 6.7 = 2.0 MHz.
    slope('layer[0].sheet', -6.7),
  ];
  const rows = rowsOf(htmlOf(planOf(single, [], undefined, { quality: 'draft', solved }).plan));
  const expected = [
    ['length of driven', '53 mm', '± 0.3 mm', '−9.1 ± 0 MHz', '0 dB', '27 MHz, 0 dB', 'matters'],
    ['thickness of driven', '0.5 mm', '± 0.03 mm', '−6.7 ± 0 MHz', '0 dB', '2 MHz, 0 dB', 'does not matter'],
    ['width of driven', '60 mm', '± 0.3 mm', '−0.4 ± 0.2 MHz', '0.4 dB', '1.8 MHz, 1.2 dB', 'matters'],
  ];
  expect(rows.filter(({ length }) => length === 7).filter(([first = '']) => / of driven/.test(first))).toEqual(
    expected,
  );
  const atDrawing = rows.filter(([what = '', , , , verdict]) => / of driven/.test(what) && verdict !== undefined);
  for (const [what = '', , , , , off = '', verdict = ''] of expected)
    expect(atDrawing.some((row) => row.length === 5 && row[0] === what && row[3] === off && row[4] === verdict)).toBe(
      true,
    );
  // What the curve does not show is no advice for the file.
  expect(rows).toContainEqual(['0.1 mm more length of driven', '−9.1 ± 0 MHz', '0 dB']);
  expect(rows.some(([first]) => first === '0.1 mm more thickness of driven')).toBe(false);
});

test('dimensions that were not solved for are named, and without any the plan says how to get them', () => {
  const words = (of: typeof plan) => htmlOf(of).replace(/<[^>]+>/g, ' ');
  const part = planOf(single, [], undefined, { quality: 'draft', solved: [slope('layer[0].length', -9.1)] }).plan;
  expect(words(part)).toMatch(/Not solved for: width of driven; spacer under driven; .*place of the pin/);
  expect(words(part)).not.toContain('sheetwave sensitivity');
  expect(words(planOf(single).plan)).toContain('sheetwave sensitivity');
});

/** The words of the cells of every row of every table. */
const rowsOf = (page: string): readonly (readonly string[])[] =>
  [...page.matchAll(/<tr>(.*?)<\/tr>/gs)].map(([, row = '']) =>
    [...row.matchAll(/<t[dh][^>]*>(.*?)<\/t[dh]>/gs)].map(([, cell = '']) => cell.replace(/<[^>]+>/g, '').trim()),
  );

// The curves of the prediction as MuPDF draws them, against the numbers that were put in. The scale is read off the page: the frame of the
// reflection is 0 dB at its top, and two of its numbers say how long a decibel is; the outer ring of the pattern has its number beside it.
describeWithClients(['mutool'], 'the curves of a printed plan', () => {
  const pages = tracePdf(planPdf(plan, design.paper), { colours: true });
  const pageWith = (words: string): DrawnPage => {
    const page = pages.find(({ texts }) => texts.some((text) => text.words === words));
    if (page === undefined) throw new Error(`no page says ${words}`);
    return page;
  };
  const strokes = (page: DrawnPage) => page.paths.filter(({ kind }) => kind === 'stroke');

  test('show the predicted reflection point by point, in dB', () => {
    const page = pageWith('Reflection');
    const yOf = (words: string): number => {
      const found = page.texts.filter((text) => text.words === words);
      if (found.length !== 1) throw new Error(`${found.length} numbers ${words}`);
      return found[0]?.at.y ?? Number.NaN;
    };
    const mmPerDb = (yOf('\u221220') - yOf('\u221210')) / 10;
    const frame = strokes(page)
      .flatMap(({ rings }) => (rings.length === 1 && rings[0]?.length === 4 ? [boxOf(rings[0])] : []))
      .find((box) => box.minY > yOf('Reflection') && box.maxX - box.minX > 100 && box.maxY - box.minY > 40);
    if (frame === undefined) throw new Error('no frame');
    const wanted = [0.5, 0.2, 0.1, 0.3, 0.6].map((size) => frame.minY - 20 * Math.log10(size) * mmPerDb);
    const curves = strokes(page).flatMap(({ rings }) => rings.filter((ring) => ring.length === wanted.length));
    expect(
      curves.some((ring) =>
        ring.every(({ x, y }, i) => {
          const right = frame.minX + ((frame.maxX - frame.minX) * i) / (wanted.length - 1);
          return Math.hypot(x - right, y - (wanted[i] ?? 0)) < 0.1;
        }),
      ),
    ).toBe(true);
  });

  test('show the predicted pattern at every angle, in dBi', () => {
    const page = pageWith('Pattern at 5.8 GHz');
    // Rings every 10 dB from 15 dBi outside, the centre 40 dB below.
    expect(page.texts.map(({ words }) => words)).toContain('15 dBi');
    const rounds = page.paths
      .filter(({ kind, curved }) => kind === 'stroke' && curved)
      .map(({ rings }) => boxOf(rings.flat()));
    const outer = rounds.reduce((a, b) => (b.maxX - b.minX > a.maxX - a.minX ? b : a));
    const [x0, y0, radius] = [
      (outer.minX + outer.maxX) / 2,
      (outer.minY + outer.maxY) / 2,
      (outer.maxX - outer.minX) / 2,
    ];
    const wanted = angleDeg.map((angle) => {
      const from = radius * (1 - (15 - (13.2 - Math.abs(angle) / 5)) / 40);
      return { x: x0 + from * Math.sin((angle * Math.PI) / 180), y: y0 - from * Math.cos((angle * Math.PI) / 180) };
    });
    const curves = strokes(page).flatMap(({ rings }) => rings.filter((ring) => ring.length === wanted.length));
    expect(
      curves.filter((ring) =>
        ring.every(({ x, y }, i) => Math.hypot(x - (wanted[i]?.x ?? 0), y - (wanted[i]?.y ?? 0)) < 0.1),
      ),
    ).toHaveLength(2);
  });
});

describeWithClients(['qpdf', 'pdftotext'], 'a printed plan with a prediction', () => {
  const pdf = planPdf(plan, design.paper);

  test('has its numbers and its errors, in a sound file', () => {
    expect(structureOf(pdf)).toContain('No syntax or stream encoding errors found');
    const words = wordsOf(pdf).replace(/\s+/g, ' ');
    for (const said of SAID) expect(words).toContain(said);
  });

  test('has both diagrams as figures that say what they show', () => {
    const objects = withFile(
      'plan.pdf',
      pdf,
      (file) => runClient('qpdf', ['--qdf', '--no-original-object-ids', file, '-']).stdout,
    );
    expect(objects).toContain('Predicted reflection over frequency, with the band from 5.725 to 5.875 GHz');
    expect(objects).toContain('Predicted gain around the antenna at 5.8 GHz');
  });
});
