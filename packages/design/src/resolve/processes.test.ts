import { describe, expect, test } from 'vitest';
import { processes } from '../stock/processes.ts';
import { etchedOn, withOverrides } from './processes.ts';

describe('undercut of an etched board', () => {
  // Etch factor = copper thickness / undercut on each side (IPC-T-50; definition confirmed, usual values by memory).
  test.each([
    ['35 µm in a tray, factor 1', 1, 0.035, 0.035],
    ['35 µm in a tray, factor 2', 2, 0.035, 0.0175],
    ['70 µm in a spray line, factor 4', 4, 0.07, 0.0175],
  ])('%s', (_, etch_factor, copperMm, undercutMm) => {
    const { etch } = withOverrides({ etch: { etch_factor } });
    expect(etchedOn(etch, copperMm).undercutMm).toBeCloseTo(undercutMm, 12);
  });

  test('the usual factor gives 0.025 mm on 35 µm copper and twice that on 70 µm', () => {
    expect(etchedOn(processes.etch, 0.035).undercutMm).toBeCloseTo(0.025, 12);
    expect(etchedOn(processes.etch, 0.07).undercutMm).toBeCloseTo(0.05, 12);
  });

  test('one that is given counts, whatever the copper; other processes have none', () => {
    const { etch } = withOverrides({ etch: { undercut: 0.04, etch_factor: 3 } });
    expect(etchedOn(etch, 0.07).undercutMm).toBe(0.04);
    expect(etchedOn(withOverrides({ etch: { undercut: 0 } }).etch, 0.07).undercutMm).toBe(0);
    expect(etchedOn(processes.mill, 0.035).undercutMm).toBe(0);
  });
});

test('bridges keep what the file does not say', () => {
  const { laser } = withOverrides({ laser: { tabs: 3, tab_width: 0.8 } });
  expect(laser.tabs).toEqual({ count: 3, widthMm: 0.8, belowMm: processes.laser.tabs.belowMm });
  expect(laser.certainty).toBe('own');
});
