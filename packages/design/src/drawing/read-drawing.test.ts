import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Contour } from '../contour.ts';
import { readDrawing } from './read-drawing.ts';

const SEED = { seed: 20260517, numRuns: 100 };

/** A DXF file with these entities, each a list of code and value. */
function dxf(
  entities: readonly (readonly (readonly [number, string | number])[])[],
  insunits: number | undefined = 4,
): string {
  const header: [number, string | number][] =
    insunits === undefined
      ? []
      : [
          [0, 'SECTION'],
          [2, 'HEADER'],
          [9, '$INSUNITS'],
          [70, insunits],
          [0, 'ENDSEC'],
        ];
  const all: [number, string | number][] = [
    ...header,
    [0, 'SECTION'],
    [2, 'ENTITIES'],
    ...entities.flat().map(([c, v]): [number, string | number] => [c, v]),
    [0, 'ENDSEC'],
    [0, 'EOF'],
  ];
  return `${all.map(([code, value]) => `${code}\n${value}`).join('\n')}\n`;
}

type Tags = readonly (readonly [number, string | number])[];
const line = (x1: number, y1: number, x2: number, y2: number): Tags => [
  [0, 'LINE'],
  [8, '0'],
  [10, x1],
  [20, y1],
  [11, x2],
  [21, y2],
];
const circle = (x: number, y: number, r: number): Tags => [
  [0, 'CIRCLE'],
  [8, '0'],
  [10, x],
  [20, y],
  [40, r],
];
const polyline = (points: readonly (readonly [number, number, number?])[], closed = 1): Tags => [
  [0, 'LWPOLYLINE'],
  [90, points.length],
  [70, closed],
  ...points.flatMap(
    ([x, y, bulge = 0]): Tags => [
      [10, x],
      [20, y],
      [42, bulge],
    ],
  ),
];
const square = (x: number, y: number, s: number): Tags =>
  polyline([
    [x, y],
    [x + s, y],
    [x + s, y + s],
    [x, y + s],
  ]);

const svg = (paths: string, attributes = 'width="40mm" height="30mm" viewBox="0 0 40 30"'): string =>
  `<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg" ${attributes}>${paths}</svg>`;

/** Area by the shoelace, with each arc as its chord and the sector's segment (computed apart from the geometry package). */
function areaOf(contour: Contour): number {
  if (contour.kind === 'circle') return Math.PI * contour.radiusMm ** 2;
  let from = contour.start;
  let twice = 0;
  for (const segment of contour.segments) {
    const { to } = segment;
    twice += from.x * to.y - from.y * to.x;
    if (segment.kind === 'arc') {
      const { centre, sense } = segment;
      const r2 = (from.x - centre.x) ** 2 + (from.y - centre.y) ** 2;
      const raw = Math.atan2(to.y - centre.y, to.x - centre.x) - Math.atan2(from.y - centre.y, from.x - centre.x);
      const turn = sense === 'ccw' ? (raw + 4 * Math.PI) % (2 * Math.PI) : -((4 * Math.PI - raw) % (2 * Math.PI));
      twice += r2 * (turn - Math.sin(turn));
    }
    from = to;
  }
  return Math.abs(twice / 2);
}

function read(name: string, text: string, units?: 'mm' | 'in'): readonly number[] {
  const result = readDrawing({ name, text, units });
  if (!result.ok) throw new Error(`${result.problem.code}: ${result.problem.allowed}`);
  return result.loops.map(areaOf);
}

function problem(name: string, text: string, units?: 'mm' | 'in'): string {
  const result = readDrawing({ name, text, units });
  return result.ok ? 'none' : `${result.problem.code}: ${result.problem.allowed}`;
}

describe('DXF', () => {
  test('a closed polyline with bulges: a 20 x 10 mm slot with half-round ends', () => {
    // A bulge of 1 is half a turn (DXF Reference, LWPOLYLINE: tangent of a quarter of the angle; memory): 20 x 10 plus a 10 mm disc.
    const text = dxf([
      polyline([
        [0, 0],
        [20, 0, 1],
        [20, 10],
        [0, 10, 1],
      ]),
    ]);
    expect(read('a.dxf', text)[0]).toBeCloseTo(200 + 25 * Math.PI, 9);
  });

  test('lines and arcs in any order and direction join into one loop', () => {
    const arc: Tags = [
      [0, 'ARC'],
      [10, 20],
      [20, 5],
      [40, 5],
      [50, 270],
      [51, 90],
    ];
    const parts = [line(0, 0, 20, 0), arc, line(0, 10, 20, 10), line(0, 10, 0, 0)];
    const wanted = 200 + (25 * Math.PI) / 2;
    expect(read('a.dxf', dxf(parts))[0]).toBeCloseTo(wanted, 9);
    fc.assert(
      fc.property(fc.shuffledSubarray(parts, { minLength: 4, maxLength: 4 }), (shuffled) => {
        expect(read('a.dxf', dxf(shuffled))[0]).toBeCloseTo(wanted, 9);
      }),
      SEED,
    );
  });

  test('POLYLINE with vertices, circles and words beside them', () => {
    const vertex = (x: number, y: number): Tags => [
      [0, 'VERTEX'],
      [10, x],
      [20, y],
    ];
    const old: Tags = [
      [0, 'POLYLINE'],
      [66, 1],
      [70, 1],
      ...vertex(0, 0),
      ...vertex(30, 0),
      ...vertex(30, 30),
      ...vertex(0, 30),
      [0, 'SEQEND'],
    ];
    const text: Tags = [
      [0, 'TEXT'],
      [10, 1],
      [20, 1],
      [40, 2],
      [1, 'patch'],
    ];
    expect(read('a.dxf', dxf([old, text, circle(15, 15, 4)]))).toEqual([900, 16 * Math.PI]);
  });

  test('units: $INSUNITS counts, the design may say it where the file does not, and must not say another', () => {
    expect(read('a.dxf', dxf([square(0, 0, 1)], 1))[0]).toBeCloseTo(25.4 ** 2, 9);
    expect(read('a.dxf', dxf([square(0, 0, 1)], 0), 'in')[0]).toBeCloseTo(25.4 ** 2, 9);
    expect(read('a.dxf', dxf([square(0, 0, 1)], undefined), 'mm')[0]).toBeCloseTo(1, 12);
    expect(problem('a.dxf', dxf([square(0, 0, 1)], 0))).toMatch(/^units-missing/);
    expect(problem('a.dxf', dxf([square(0, 0, 1)], 4), 'in')).toMatch(/^units-differ/);
    expect(problem('a.dxf', dxf([square(0, 0, 1)], 7))).toMatch(/^units-unknown/);
  });

  test.each<[string, string, RegExp]>([
    [
      'an open path, with the gap and where',
      dxf([line(0, 0, 20, 0), line(20, 0, 20, 10), line(20, 10, 0, 0.05)]),
      /^outline-open: is open: a line ends at \(0, 0\) mm, 0\.05 mm/,
    ],
    ['a gap below 0.001 mm', dxf([line(0, 0, 20, 0), line(20, 0.0008, 20, 10), line(20, 10, 0, 0)]), /^none$/],
    [
      'three lines at one point',
      dxf([square(0, 0, 9), line(0, 0, 20, 0), line(20, 0, 20, 10), line(20, 10, 0, 0), line(0, 0, -5, 0)]),
      /^outline-branches: has 3 lines that meet at \(0, 0\)/,
    ],
    ['nothing', dxf([]), /^outline-missing/],
    [
      'a spline',
      dxf([
        [
          [0, 'SPLINE'],
          [70, 8],
        ],
      ]),
      /^drawing-unsupported: holds a SPLINE on line 15/,
    ],
    [
      'a block',
      dxf([
        [
          [0, 'INSERT'],
          [2, 'wing'],
        ],
      ]),
      /^drawing-unsupported: holds an INSERT/,
    ],
    ['a mirrored circle', dxf([[...circle(0, 0, 4), [230, -1]]]), /^drawing-unsupported: holds a mirrored/],
    [
      'NaN',
      dxf([
        [
          [0, 'CIRCLE'],
          [10, 'nan'],
          [20, 0],
          [40, 5],
        ],
      ]),
      /^not-a-number: has "nan" on line 18/,
    ],
    [
      'a number beyond any',
      dxf([
        [
          [0, 'CIRCLE'],
          [10, '1e999'],
          [20, 0],
          [40, 5],
        ],
      ]),
      /^not-a-number/,
    ],
    ['metres for millimetres', dxf([square(0, 0, 30)], 6), /^drawing-size: is 30000 mm over all/],
    ['no DXF', 'hello\nworld\n', /^not-dxf/],
    [
      'too many points',
      dxf([polyline(Array.from({ length: 5001 }, (_, i) => [20 * Math.cos(i / 796), 20 * Math.sin(i / 796)]))]),
      /^drawing-too-fine: holds 5001/,
    ],
    ['a file of more than 1 MB', ' '.repeat(1_000_001), /^drawing-too-large/],
  ])('%s', (_, text, wanted) => {
    expect(problem('a.DXF', text)).toMatch(wanted);
  });
});

describe('SVG', () => {
  test.each([
    ['a curve of kilometres', 'M0 0C1e9 0 0 1e9 10 10Z', /^drawing-size: holds a curve far larger than a patch/],
    ['an ellipse of kilometres', 'M0 0A1e9 2e9 0 1 0 10 10Z', /^drawing-size: holds a curve far larger/],
    ['an endless curve', 'M0 0C1e300 0 0 1e308 10 10Z', /^drawing-size: holds a curve far larger|^not-a-number/],
    ['many curves in one path', `M0 0${'q90 0 9 9'.repeat(90_000)}Z`, /^drawing-too-fine: holds/],
  ])('%s is refused at once', (_, path, wanted) => {
    expect(problem('a.svg', svg(`<path d="${path}"/>`))).toMatch(wanted);
  });

  test('many paths of curves are refused at once', () => {
    const text = svg('<path d="M0 0q90 0 9 9Z"/>'.repeat(20_000));
    expect(problem('a.svg', text)).toMatch(/^drawing-too-fine: holds/);
  });

  test('path data, absolute and relative, in the units of the page', () => {
    expect(read('a.svg', svg('<path d="M0 0H20V10H0Z"/>'))).toEqual([200]);
    expect(read('a.svg', svg('<path d="m5,5 20,0 0,10 -20,0z m5 2h4v4h-4z"/>'))).toEqual([200, 16]);
    // viewBox of half the size: 2 mm a unit. Width in inches: 25.4 mm.
    expect(
      read('a.svg', svg('<path d="M0 0H10V10H0Z"/>', 'width="40mm" height="30mm" viewBox="0 0 20 15"'))[0],
    ).toBeCloseTo(400, 9);
    expect(read('a.svg', svg('<path d="M0 0H1V1H0Z"/>', 'width="4in" height="3in" viewBox="0 0 4 3"'))[0]).toBeCloseTo(
      25.4 ** 2,
      9,
    );
  });

  test('round arcs stay arcs: a circle of two arcs, also turned, mirrored and doubled', () => {
    const round = '<path d="M5 10 A5 5 0 1 1 15 10 A5 5 0 1 1 5 10Z"/>';
    expect(read('a.svg', svg(round))[0]).toBeCloseTo(25 * Math.PI, 9);
    expect(read('a.svg', svg(`<g transform="translate(3 4) rotate(30) scale(-2 2)">${round}</g>`))[0]).toBeCloseTo(
      100 * Math.PI,
      9,
    );
  });

  test('curves lie within 0.005 mm: area and sag of parabola, circle-like cubic and ellipse', () => {
    // Segment of a parabola: 2/3 of its box (Archimedes). M 0 0 Q 10 20 20 0 is 20 wide and 10 high.
    expect(Math.abs((read('a.svg', svg('<path d="M0 0Q10 20 20 0Z"/>'))[0] ?? 0) - (2 / 3) * 200)).toBeLessThan(
      0.005 * 20,
    );
    // Ellipse π a b; each chord lies inside by at most 0.005 mm around a circumference below 2π a.
    const ellipse = read('a.svg', svg('<path d="M0 10A10 6 0 0 1 20 10A10 6 0 0 1 0 10Z"/>'))[0] ?? 0;
    expect(Math.PI * 60 - ellipse).toBeGreaterThan(0);
    expect(Math.PI * 60 - ellipse).toBeLessThan(0.005 * 2 * Math.PI * 10);
    // Quarter circle by a cubic: within 2.73e-4 of the radius (well-known constant 0.5522847498; memory).
    const k = 10 * 0.5522847498;
    const quarter = read('a.svg', svg(`<path d="M10 0C10 ${k} ${k} 10 0 10L0 0Z"/>`))[0] ?? 0;
    expect(Math.abs(quarter - 25 * Math.PI)).toBeLessThan((0.005 + 2.73e-3) * 5 * Math.PI);
  });

  test('S and T continue the curve before them', () => {
    // A whole wave of two mirrored parabolas encloses two segments of 2/3 of 10 x 5 with the axis.
    const wave = read('a.svg', svg('<path d="M0 0Q5 10 10 0T20 0L20 20L0 20Z"/>'))[0] ?? 0;
    expect(Math.abs(wave - 400)).toBeLessThan(0.2);
  });

  test('what is not drawn is passed over, what is drawn and not read is refused', () => {
    const hidden =
      '<defs><path d="M0 0H9"/></defs><g style="display:none"><path d="M0 0H9"/></g><title>a</title><x:view xmlns:x="y"/>';
    expect(read('a.svg', svg(`${hidden}<!-- <rect/> --><path d="M0 0H20V10H0Z"/>`))).toEqual([200]);
    expect(problem('a.svg', svg('<rect width="3" height="4"/>'))).toMatch(/^drawing-unsupported: holds <rect>/);
    expect(problem('a.svg', svg('<text>a</text>'))).toMatch(/^drawing-unsupported/);
  });

  test.each<[string, string, RegExp]>([
    ['an open path', svg('<path d="M0 0H20V10"/>'), /^outline-open: is open: a line ends at \(0, 0\) mm/],
    ['two paths that join', svg('<path d="M0 0H20V10"/><path d="M20 10L0 0"/>'), /^none$/],
    ['pixels', svg('<path d="M0 0H20V10Z"/>', 'width="40px" height="30px"'), /^units-missing/],
    ['no size', svg('<path d="M0 0H20V10Z"/>', 'viewBox="0 0 40 30"'), /^units-missing/],
    [
      'an uneven page',
      svg('<path d="M0 0H20V10Z"/>', 'width="40mm" height="30mm" viewBox="0 0 40 40"'),
      /^units-unknown/,
    ],
    ['broken path data', svg('<path d="M0 0H20V1e400Z"/>'), /^not-svg: has path data/],
    ['a path that does not begin', svg('<path d="L0 0H20V10Z"/>'), /^not-svg/],
    ['broken tags', svg('<g><path d="M0 0H20V10Z"/>'), /^not-svg: is not an SVG file/],
    ['no SVG', '<html></html>', /^not-svg/],
    ['a strange transform', svg('<path transform="twist(3)" d="M0 0H20V10Z"/>'), /^not-svg: has the transform/],
  ])('%s', (_, text, wanted) => {
    expect(problem('a.svg', text)).toMatch(wanted);
  });
});

test('any text gives loops or one problem, never a throw', () => {
  const pieces = [
    '0\nSECTION\n2\nENTITIES\n',
    '0\nLINE\n10\n1\n',
    '<svg width="1mm"',
    ' viewBox="0 0 1 1">',
    '<path d="',
    'M0 0',
    'A1 1 0 0 1 3 4',
    'Z"/>',
    '</svg>',
    '\n',
    '70\n1\n',
    'x',
  ];
  fc.assert(
    fc.property(
      fc.array(fc.oneof(fc.constantFrom(...pieces), fc.string()), { maxLength: 12 }),
      fc.constantFrom('a.dxf', 'a.svg'),
      (parts, name) => {
        const result = readDrawing({ name, text: parts.join(''), units: 'mm' });
        expect(result.ok ? result.loops.length > 0 : result.problem.allowed.length > 0).toBe(true);
      },
    ),
    { seed: 20260517, numRuns: 1000 },
  );
});
