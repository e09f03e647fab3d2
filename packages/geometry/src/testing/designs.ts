import { type Design, type DesignFile, defineDesign, renderFinding } from '@sheetwave/design';
import { assemble } from '../assemble.ts';
import type { Assembly } from '../assembly.ts';

/** A 2 x 2 array of two-layer stacks with a rod harness, as a design file's object; tests change single fields. */
export const rodArray: DesignFile = {
  format: 1,
  name: 'Test array',
  revision: 'A',
  band: { low: '5.7 GHz', high: '5.9 GHz' },
  reflector: { sheet: 'brass-1.0', corner_radius: '3 mm' },
  layer: [
    {
      name: 'driven',
      shape: 'rectangle',
      length: '20 mm',
      width: '26 mm',
      sheet: 'brass-0.5',
      spacer: 'm3-mf-5-brass',
    },
    { name: 'parasitic', shape: 'circle', diameter: '16 mm', sheet: 'brass-0.5', spacer: 'm3-mf-6-brass' },
  ],
  feed: { kind: 'probe', from_edge: '4 mm', probe_diameter: '1.5 mm', solder_hole: '1.7 mm' },
  lattice: { rows: 2, columns: 2, row_pitch: '40 mm', column_pitch: '44 mm', orientation: 'vertical' },
  harness: { kind: 'rod', topology: 'tree', height: '2.1 mm', rod: 'brass-rod-1.5', bend_radius: '1.5 mm' },
  coax: { stock: 'semi-rigid-141', connector: 'n-plug-cable', length: '250 mm' },
  hardware: { thread: 'M3', screw: 'm3-pan-6-brass', nut: 'm3-nut-brass' },
};

/** The same elements joined by a strip. */
export const stripArray: DesignFile = {
  ...rodArray,
  harness: { kind: 'strip', topology: 'tree', height: '2 mm', sheet: 'brass-0.5', width: '3 mm' },
};

/** Four patches and their feed etched on one board. */
export const etchedArray: DesignFile = {
  format: 1,
  name: 'Test board',
  revision: 'A',
  band: { low: '5.47 GHz', high: '5.53 GHz' },
  reflector: { board: 'ptfe-glass-0.787-35', size: { width: '100 mm', height: '105 mm' } },
  layer: [{ name: 'driven', shape: 'rectangle', length: '17.65 mm', width: '21.5 mm' }],
  feed: { kind: 'inset', depth: '4.6 mm', gap: '0.6 mm' },
  lattice: { rows: 2, columns: 2, row_pitch: '39 mm', column_pitch: '39 mm', orientation: 'vertical' },
  harness: {
    kind: 'microstrip',
    level: [
      { width: '0.7 mm', section: { at: 'outer', length: '10 mm', width: '1.4 mm' } },
      { width: '0.7 mm', stem: '10.6 mm' },
    ],
  },
  coax: { stock: 'semi-rigid-141', connector: 'sma-board' },
};

/** Reads a design that must be right. */
export function designOf(file: DesignFile): Design {
  const { design, findings } = defineDesign(file);
  if (!design) throw new Error(findings.map((finding) => renderFinding(finding)).join('\n'));
  return design;
}

/** Assembles a design that must come out. */
export function assemblyOf(file: DesignFile): Assembly {
  const { assembly, findings } = assemble(designOf(file));
  if (!assembly) throw new Error(findings.map((finding) => renderFinding(finding)).join('\n'));
  return assembly;
}
