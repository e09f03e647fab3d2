/** Every example can be meshed and checked for a prediction, as it is built and element by element. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { readDesign } from '@sheetwave/design';
import { assemble } from '@sheetwave/geometry';
import { planPrediction } from '@sheetwave/predict';
import { describe, expect, it } from 'vitest';

const EXAMPLES = new URL('../../examples/', import.meta.url);
const names = readdirSync(EXAMPLES, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && existsSync(new URL(`${entry.name}/design.toml`, EXAMPLES)))
  .map(({ name }) => name);

/** Along which axes each example mirrors itself, told by its lattice, its feed and its slots. */
const MIRRORED: Readonly<Record<string, readonly string[]>> = {
  'brass-2x2-5g8': ['x'],
  'etched-2x2-5g5': ['x'],
  'laser-single-2g4': ['x'],
  'slot-and-corners-5g8': [],
  'strip-column-5g2': ['y'],
};

function assemblyOf(name: string) {
  const { design } = readDesign(readFileSync(new URL(`${name}/design.toml`, EXAMPLES), 'utf8'));
  const assembly = design && assemble(design).assembly;
  if (!assembly) throw new Error(`${name} does not assemble`);
  return assembly;
}

describe.each(names)('%s', (name) => {
  it('as built', { timeout: 60_000 }, () => {
    const { cost, doubts } = planPrediction(assemblyOf(name), { quality: 'draft' });
    expect(cost.mirroredAcross).toEqual(MIRRORED[name]);
    expect(cost.runs).toBe(1);
    expect(cost.memoryBytes).toBeLessThan(100e6);
    expect(doubts.length).toBeGreaterThan(3);
  });

  it('element by element', { timeout: 60_000 }, () => {
    const assembly = assemblyOf(name);
    const { ports } = planPrediction(assembly, { quality: 'draft', feed: 'each-element' });
    expect(ports.map(({ element }) => element)).toEqual([...assembly.elements.keys()]);
  });
});
