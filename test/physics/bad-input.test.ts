import { FieldError, planScene, type Scene } from '@sheetwave/field';
import { describe, expect, it } from 'vitest';
import { mm, sceneOf } from './solve-fast.ts';

// Every mistake is told before a step is run: planScene runs none.

const BAND = { low: 4e9, high: 6e9 };
const ground = { zLow: { kind: 'metal', at: 0 } } as const;
const plate = (side: number, at = 3 * mm) =>
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
        [side, side],
        [0, side],
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
    ['a part behind a wall', { sheets: [plate(20 * mm, -2 * mm)] }, 'outside walls.zLow'],
    ['two ports in one place', { ports: [port, { ...port, name: 'other' }] }, 'ports-overlap ports[1]'],
    ['no port', { ports: [] }, 'no-port ports'],
    ['a sheet without size', { sheets: [plate(0)] }, 'no-area sheets[0].outline'],
    ['a sheet that is no number', { sheets: [plate(Number.NaN)] }, 'not-finite sheets[0].outline'],
    ['a slanted port', { ports: [{ ...port, to: [6 * mm, 5 * mm, 3 * mm] }] }, 'not-along-axis ports[0]'],
    [
      'material that is no number',
      {
        solids: [
          { name: 'board', shape: { kind: 'box', low: [0, 0, 0], high: [mm, mm, mm] }, permittivity: Number.NaN },
        ],
      },
      'permittivity solids[0].permittivity',
    ],
  ])('%s', (_, part, problem) => {
    expect(codes({ ...good, ...part })).toContain(problem);
  });

  it('a port inside metal', () => {
    const block = { ...plate(20 * mm, 0), thickness: 3 * mm };
    expect(codes({ ...good, sheets: [block] })).toEqual(['shorted ports[0]']);
  });

  it('a wire that is too thick for its cells', () => {
    const wire = { name: 'rod', from: [8 * mm, 0, 10 * mm], to: [8 * mm, 20 * mm, 10 * mm], radius: 6 * mm } as const;
    expect(codes({ ...good, wires: [wire] })).toEqual(['too-thick wires[0].radius']);
  });

  it('too little memory', () => {
    expect(codes(good, { memoryBytes: 1e5 })).toEqual(['memory memoryBytes']);
  });

  it('says what is wrong, where, and what to do', () => {
    expect(() => planScene({ ...good, ports: [port, port] }, { band: BAND })).toThrow(
      'ports[1]: feed: lies on ports[0]; move one of them.',
    );
  });
});
