import { FieldError, planScene, type Scene } from '@sheetwave/field';
import { describe, expect, it } from 'vitest';
import { mm, sceneOf } from './solve-fast.ts';

// Every mistake is told before a step is run: planScene runs none.

const BAND = { low: 4e9, high: 6e9 };
const ground = { zLow: { kind: 'metal', at: 0 } } as const;
const NO_NUMBER = Number.NaN;
const disc = (radius: number) => ({ kind: 'disc', centre: [0, 0], radius }) as const;
const board = { name: 'board', shape: { kind: 'box', low: [0, 0, 0], high: [mm, mm, mm] }, permittivity: 2 } as const;
const rod = { name: 'rod', from: [8 * mm, 0, 10 * mm], to: [8 * mm, 20 * mm, 10 * mm], radius: 1e-4 } as const;
const plate = (side: number, at = 3 * mm, width = side) =>
  ({
    name: 'plate',
    normal: 'z',
    at,
    thickness: 0,
    outline: {
      kind: 'polygon',
      points: [
        [0, 0],
        [side, 0],
        [side, width],
        [0, width],
      ],
    },
  }) as const;
const port = { name: 'feed', from: [5 * mm, 5 * mm, 0], to: [5 * mm, 5 * mm, 3 * mm], resistance: 50 } as const;
const good = sceneOf({ sheets: [plate(20 * mm)], ports: [port], walls: ground });

function codes(scene: Scene, options = {}): string[] {
  try {
    planScene(scene, { band: BAND, quality: 'draft', ...options });
  } catch (error) {
    if (error instanceof FieldError) return error.problems.map(({ code, path }) => `${code} ${path}`);
    throw error;
  }
  return [];
}

describe('a scene that cannot be solved', () => {
  it('is told from one that can', () => {
    expect(codes(good)).toEqual([]);
  });

  it.each<[string, Partial<Scene>, string]>([
    ['a part behind a wall', { sheets: [plate(20 * mm, -2 * mm)] }, 'outside sheets[0]'],
    ['a part behind a high wall', { walls: { ...ground, xHigh: { kind: 'metal', at: 10 * mm } } }, 'outside sheets[0]'],
    ['a port that begins behind a wall', { ports: [{ ...port, from: [5 * mm, 5 * mm, -mm] }] }, 'outside ports[0]'],
    ['two ports in one place', { ports: [port, { ...port, name: 'other' }] }, 'ports-overlap ports[1]'],
    [
      'a port that begins inside another, the other way round',
      {
        ports: [
          { ...port, to: [5 * mm, 5 * mm, 2 * mm] },
          { ...port, from: port.to, to: [5 * mm, 5 * mm, mm] },
        ],
      },
      'ports-overlap ports[1]',
    ],
    [
      'an element on a port',
      { elements: [{ name: 'load', from: port.from, to: port.to, resistance: 100 }] },
      'ports-overlap elements[0]',
    ],
    [
      'a port shorted by a wire',
      { wires: [{ name: 'strap', from: port.from, to: port.to, radius: 1e-4 }] },
      'shorted ports[0]',
    ],
    ['no port', { ports: [] }, 'no-port ports'],
    ['a sheet without size', { sheets: [plate(0)] }, 'no-area sheets[0].outline'],
    ['a disc without size', { sheets: [{ ...plate(mm), outline: disc(0) }] }, 'no-area sheets[0].outline'],
    [
      'a sheet of two corners',
      {
        sheets: [
          {
            ...plate(mm),
            outline: {
              kind: 'polygon',
              points: [
                [0, 0],
                [mm, 0],
              ],
            },
          },
        ],
      },
      'no-area sheets[0].outline',
    ],
    ['a hole without size', { sheets: [{ ...plate(20 * mm), holes: [disc(0)] }] }, 'no-area sheets[0].holes[0]'],
    ['a sheet that is no number', { sheets: [plate(Number.NaN)] }, 'not-finite sheets[0].outline'],
    ['a slanted port', { ports: [{ ...port, to: [6 * mm, 5 * mm, 3 * mm] }] }, 'not-along-axis ports[0]'],
    [
      'a permittivity that is no number',
      { solids: [{ ...board, permittivity: NO_NUMBER }] },
      'permittivity solids[0].permittivity',
    ],
    [
      'a loss that is no number',
      { solids: [{ ...board, lossTangent: NO_NUMBER }] },
      'loss-tangent solids[0].lossTangent',
    ],
    [
      'a cylinder that is nowhere',
      {
        solids: [
          { ...board, shape: { kind: 'cylinder', axis: 'z', centre: [NO_NUMBER, 0], radius: mm, from: 0, to: mm } },
        ],
      },
      'no-volume solids[0]',
    ],
    [
      'a conductivity that is no number',
      { sheets: [{ ...plate(20 * mm), conductivity: NO_NUMBER }] },
      'not-positive sheets[0].conductivity',
    ],
    ['the same of a wire', { wires: [{ ...rod, conductivity: NO_NUMBER }] }, 'not-positive wires[0].conductivity'],
    [
      'a resistance that is no number',
      { ports: [{ ...port, resistance: NO_NUMBER }] },
      'not-positive ports[0].resistance',
    ],
    ['a radius that is no number', { ports: [{ ...port, radius: NO_NUMBER }] }, 'not-positive ports[0].radius'],
    ['a wall that is nowhere', { walls: { zLow: { kind: 'metal', at: NO_NUMBER } } }, 'not-finite walls.zLow.at'],
    ['a side that opens nowhere', { openAt: { xLow: NO_NUMBER } }, 'not-finite openAt.xLow'],
    ['a strip of a nanometre', { sheets: [plate(20 * mm), plate(20 * mm, 6 * mm, 1e-9)] }, 'too-small sheets[1]'],
    ['a port of a tenth of a micrometre', { ports: [{ ...port, to: [5 * mm, 5 * mm, 1e-7] }] }, 'too-small ports[0]'],
    [
      'two sheets that nearly touch',
      { sheets: [plate(20 * mm), plate(20 * mm, 3 * mm + 5e-9)] },
      'too-small sheets[0]',
    ],
  ])('%s', (_, part, problem) => {
    expect(codes({ ...good, ...part })).toContain(problem);
  });

  it('a port inside metal', () => {
    const block = { ...plate(20 * mm, 0), thickness: 3 * mm };
    expect(codes({ ...good, sheets: [block] })).toEqual(['shorted ports[0]']);
  });

  it('a wire that is too thick for its cells', () => {
    expect(codes({ ...good, wires: [{ ...rod, radius: 6 * mm }] })).toEqual(['too-thick wires[0].radius']);
    expect(codes({ ...good, ports: [{ ...port, radius: 6 * mm }] })).toEqual(['too-thick ports[0].radius']);
  });

  it('too little memory', () => {
    expect(codes(good, { memoryBytes: 1e5 })).toEqual(['memory memoryBytes']);
  });

  it('more than can be addressed, before the grid is made', () => {
    // 4 GiB hold 179 million cells of 24 bytes: a plate of 20 m at 6 GHz, 14 cells per wavelength, has 31 million of them in
    // each layer; cells of 4.3 um all over the scene are far more.
    expect(codes({ ...good, sheets: [plate(20)] })).toEqual(['memory memoryBytes']);
    expect(codes(good, { band: { low: 4e12, high: 6e12 } })).toEqual(['memory memoryBytes']);
  });

  it.each([
    [{ memoryBytes: NO_NUMBER }, 'memoryBytes'],
    [{ freqHz: [5e9, NO_NUMBER] }, 'freqHz[1]'],
    [{ farFieldHz: [-1] }, 'farFieldHz[0]'],
    [{ stepDegrees: 0 }, 'stepDegrees'],
    [{ threads: 1.5 }, 'threads'],
    [{ quality: 'best' }, 'quality'],
  ])('an option that cannot be: %o', (options, path) => {
    expect(codes(good, options)).toEqual([`option ${path}`]);
  });

  it('says what is wrong, where, and what to do', () => {
    expect(() => planScene({ ...good, ports: [port, port] }, { band: BAND })).toThrow(
      'ports[1]: feed: lies on ports[0]; move one of them.',
    );
  });
});
