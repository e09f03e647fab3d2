import { expect, it } from 'vitest';
import { newDesignText } from '../new-design.ts';
import { readDesign } from '../read-design.ts';

function printOf(section: string) {
  const text = newDesignText().replace(/^\[print\][\s\S]*?\n\n/m, `[print]\n${section}\n\n`);
  const { design, findings } = readDesign(text);
  return { print: design?.print, findings };
}

it('takes what resin needs when resin is named', () => {
  // Resin holds 0.05 to 0.1 mm where filament holds 0.1 to 0.2 mm (shop practice, memory).
  expect(printOf('process = "resin"').print).toMatchObject({ holeAllowanceMm: 0.1, fitClearanceMm: 0.1 });
});

it('lets every value of a process be replaced', () => {
  const section = 'process = "resin"\nhole_allowance = "0.05 mm"\nbed = ["8 in", "150 mm"]\nspring_back = "5 deg"';
  expect(printOf(section).print).toMatchObject({
    holeAllowanceMm: 0.05,
    fitClearanceMm: 0.1,
    // 8 · 25.4 (computed).
    bedMm: { x: 203.2, y: 150 },
    springBackDeg: 5,
    bushingMm: undefined,
  });
});

it.each([
  ['process = "powder"', 'print.process'],
  ['bed = "220 mm"', 'print.bed'],
  ['bed = ["220 mm"]', 'print.bed'],
  ['bed = ["220 mm", "10 mm"]', 'print.bed'],
  ['spring_back = "3 mm"', 'print.spring_back'],
  ['bushing = "1 mm"', 'print.bushing'],
])('reports %s where it stands', (section, path) => {
  const { print, findings } = printOf(section);
  expect(print).toBeUndefined();
  expect(findings).toHaveLength(1);
  expect(findings[0]?.path).toContain(path);
  expect(findings[0]?.remedy).not.toBe('');
});
