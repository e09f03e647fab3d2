import { expect, test } from 'vitest';
import { drillAdvice } from './drill-size.ts';

// Drill sizes: ISO 235 jobber series in steps of 0.1 mm (memory). Step drill in thin sheet: common practice, no source.
test.each([
  [{ diameterMm: 3.4, plated: false, sheetMm: 0.8 }, '3.4 mm'],
  [{ diameterMm: 3.18, plated: false, sheetMm: 0.8 }, '3.2 mm'],
  [{ diameterMm: 5.5, plated: false, sheetMm: 1 }, 'pilot 3, step drill to 5.5 mm'],
  [{ diameterMm: 5.5, plated: false, sheetMm: 3 }, '5.5 mm'],
  [{ diameterMm: 16, plated: false, sheetMm: 1 }, 'pilot 3, then hole saw or step drill; file to 16 mm'],
  [{ diameterMm: 1.6, plated: true, sheetMm: 1.6 }, 'finished size 1.6 mm, after plating'],
])('%o takes %s', (hole, words) => {
  expect(drillAdvice(hole)).toBe(words);
});
