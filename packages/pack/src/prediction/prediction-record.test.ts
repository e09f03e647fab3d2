import type { Prediction } from '@sheetwave/predict';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { predictionKey } from './prediction-key.ts';
import { type PredictionRecord, readRecord, recordText } from './prediction-record.ts';

const request = { feed: 'as-built', quality: 'draft', twoMeshes: false, points: 3 } as const;

function recordWith(number: number): PredictionRecord {
  const lists = {
    ports: [],
    resonances: [],
    bands: [],
    figures: [],
    gains: [],
    cuts: [],
    runs: [],
    doubts: [],
    findings: [],
  };
  const prediction = { response: {}, cost: {}, matches: [{ worstVswr: number }], ...lists } as unknown as Prediction;
  return { key: 'a key', request, prediction };
}

describe('a record', () => {
  test('comes back as it was, to the last bit and with infinities', () => {
    fc.assert(
      fc.property(fc.double(), (number) => {
        // JSON has no minus zero.
        const record = recordWith(Object.is(number, -0) ? 0 : number);
        expect(readRecord(recordText(record, { report: 'words beside' }))).toEqual(record);
      }),
    );
  });

  test.each(['', '{', 'null', '[]', '{"format":2}', '{"format":1,"key":"k"}', '{"format":1,"key":"k","request":{}}'])(
    'is not found in %j',
    (text) => {
      expect(readRecord(text)).toBeUndefined();
    },
  );

  test('cut short anywhere is none', () => {
    const text = recordText(recordWith(2)).trimEnd();
    for (let length = 0; length < text.length; length += 1) expect(readRecord(text.slice(0, length))).toBeUndefined();
  });
});

describe('the key', () => {
  const subject = {
    scene: { a: 1, b: [2, { c: 3, d: undefined }] },
    request,
    setting: { x: Number.POSITIVE_INFINITY },
    solver: '1',
  };

  test('does not know the order of names, nor names without a value', () => {
    const other = { ...subject, scene: { b: [2, { c: 3 }], a: 1 } };
    expect(predictionKey(other)).toBe(predictionKey(subject));
  });

  test.each([
    ['a number by its last bit', { scene: { a: 1 + Number.EPSILON, b: subject.scene.b } }],
    ['the order of a list', { scene: { a: 1, b: [...subject.scene.b].reverse() } }],
    ['a number and its text', { scene: { a: '1', b: subject.scene.b } }],
    ['what was asked', { request: { ...request, points: 4 } }],
    ['the solver', { solver: '2' }],
  ])('knows %s', (_, change) => {
    expect(predictionKey({ ...subject, ...change })).not.toBe(predictionKey(subject));
  });
});
