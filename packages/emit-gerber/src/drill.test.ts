import { type BoardPart, type Hole, rectangleContour } from '@sheetwave/geometry';
import { expect, test } from 'vitest';
import type { Identity } from './attributes.ts';
import { drillBytes } from './drill.ts';
import { boardFrame } from './frame.ts';

const identity: Identity = {
  project: { name: 'Heron Lock panel', guid: '00000000-0000-4000-8000-000000000000', revision: 'B' },
  coordinates: '00000000-0000-4000-8000-000000000001',
  created: undefined,
};

const hole = (purpose: Hole['purpose'], at: readonly [number, number], more: { d: number; plated: boolean }): Hole => ({
  purpose,
  centre: { x: at[0], y: at[1] },
  diameterMm: more.d,
  plated: more.plated,
});

function board(holes: readonly Hole[]): BoardPart {
  const outer = rectangleContour({ centre: { x: 0, y: 0 }, widthMm: 20, heightMm: 10 });
  return { id: 'reflector', outline: { outer, cutouts: [], holes } } as unknown as BoardPart;
}

function lines(part: BoardPart, plated: boolean): readonly string[] {
  const bytes = drillBytes(part, plated, { frame: boardFrame(part), identity });
  return new TextDecoder().decode(bytes).split('\n');
}

test('holes are listed by tool, small to large, from the lower left corner of the board', () => {
  // Source of the form: XNC Format Specification 2021.11 (header and tools confirmed, explicit decimals common practice).
  const part = board([
    hole('mounting', [-8, -3], { d: 4.3, plated: false }),
    hole('connector-pin', [0, 0], { d: 1.3, plated: true }),
    hole('fixing', [1.0004, 2], { d: 3.2, plated: false }),
    hole('mounting', [8, 3], { d: 4.3, plated: false }),
  ]);
  expect(lines(part, false)).toEqual([
    'M48',
    expect.stringMatching(/^; #@! TF\.GenerationSoftware,/),
    '; #@! TF.ProjectId,Heron Lock panel,00000000-0000-4000-8000-000000000000,B',
    '; #@! TF.Part,Single',
    '; #@! TF.SameCoordinates,00000000-0000-4000-8000-000000000001',
    '; #@! TF.FileFunction,NonPlated,1,2,NPTH',
    '; #@! TF.FilePolarity,Positive',
    'METRIC',
    '; #@! TA.AperFunction,MechanicalDrill',
    'T01C3.200',
    '; #@! TA.AperFunction,MechanicalDrill',
    'T02C4.300',
    '%',
    'G05',
    'T01',
    'X11.000Y7.000',
    'T02',
    'X2.000Y2.000',
    'X18.000Y8.000',
    'M30',
    '',
  ]);
});

test('plated holes of one size for a lead and for joining the sides are two tools', () => {
  const part = board([
    hole('connector-pin', [0, 0], { d: 1.3, plated: true }),
    hole('fixing', [5, 0], { d: 1.3, plated: true }),
  ]);
  const text = lines(part, true);
  expect(text).toContain('; #@! TF.FileFunction,Plated,1,2,PTH');
  expect(text).toContain('; #@! TA.AperFunction,ComponentDrill');
  expect(text).toContain('; #@! TA.AperFunction,ViaDrill');
  expect(text.filter((line) => /^T\d\dC1\.300$/.test(line))).toEqual(['T01C1.300', 'T02C1.300']);
});

test('a hundred tools are refused, because T100 means something else to a reader', () => {
  const many = Array.from({ length: 100 }, (_, n) => hole('fixing', [0, 0], { d: 1 + n / 100, plated: false }));
  expect(() => lines(board(many), false)).toThrow(/100 tools/);
});

test('a hole of no size is refused', () => {
  expect(() => lines(board([hole('fixing', [0, 0], { d: 0, plated: false })]), false)).toThrow(/hole of 0 mm/);
});
