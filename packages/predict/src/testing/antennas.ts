import { type DesignFile, defineDesign, renderFinding } from '@sheetwave/design';
import { type Assembly, assemble } from '@sheetwave/geometry';

/** Four stacks of two patches joined by rods. */
export const rodArray: DesignFile = {
  format: 1,
  name: 'Scene test',
  revision: 'A',
  band: { low: '5.7 GHz', high: '5.9 GHz' },
  reflector: { sheet: 'brass-1.0' },
  layer: [
    {
      name: 'driven',
      shape: 'rectangle',
      length: '19 mm',
      width: '24 mm',
      sheet: 'brass-0.5',
      spacer: 'm3-mf-5-brass',
    },
    { name: 'parasitic', shape: 'circle', diameter: '16 mm', sheet: 'brass-0.5', spacer: 'm3-mf-6-brass' },
  ],
  feed: { kind: 'probe', from_edge: '4 mm', probe_diameter: '1.5 mm', solder_hole: '1.7 mm' },
  lattice: { rows: 2, columns: 2, row_pitch: '40 mm', column_pitch: '40 mm', orientation: 'vertical' },
  harness: { kind: 'rod', height: '2.1 mm', rod: 'brass-rod-1.5', bend_radius: '1.5 mm' },
  coax: { stock: 'semi-rigid-141' },
};

/** Four patches and their lines etched on one board. */
export const etchedArray: DesignFile = {
  format: 1,
  name: 'Scene test',
  revision: 'A',
  band: { low: '5.47 GHz', high: '5.53 GHz' },
  reflector: { board: 'ptfe-glass-0.787-35', size: { width: '100 mm', height: '105 mm' } },
  layer: [{ name: 'driven', shape: 'rectangle', length: '17.65 mm', width: '21.5 mm' }],
  feed: { kind: 'inset', depth: '4.6 mm', gap: '0.6 mm' },
  lattice: { rows: 2, columns: 2, row_pitch: '39 mm', column_pitch: '39 mm', orientation: 'vertical' },
  harness: { kind: 'microstrip', level: [{ width: '0.7 mm' }, { width: '0.7 mm', stem: '10.6 mm' }] },
  coax: { stock: 'semi-rigid-141', connector: 'sma-board' },
};

/** One brass patch 25 mm wide and 3 mm up on a small reflector, with the coax pin as its probe. */
export const airPatch = (lengthMm: number, columns = 1): DesignFile => ({
  format: 1,
  name: 'Scene test',
  revision: 'A',
  band: { low: '5 GHz', high: '5.4 GHz' },
  reflector: { sheet: 'brass-1.0', size: { width: `${60 + (columns - 1) * 40} mm`, height: '60 mm' } },
  layer: [
    {
      name: 'driven',
      shape: 'rectangle',
      length: `${lengthMm} mm`,
      width: '25 mm',
      sheet: 'brass-0.5',
      spacer: { printed: '3 mm', outer: '6 mm' },
    },
  ],
  feed: { kind: 'probe', from_edge: '6.5 mm', probe_diameter: '0.92 mm', solder_hole: '1.2 mm' },
  ...(columns === 1
    ? {}
    : {
        lattice: { rows: 1, columns, column_pitch: '40 mm', orientation: 'vertical' },
        harness: { kind: 'strip', topology: 'tree', height: '1 mm', sheet: 'brass-0.5', width: '2 mm' },
      }),
  coax: { stock: 'semi-rigid-141' },
  hardware: { thread: 'M3', screw: 'm3-pan-10-brass' },
});

/** A stack of three in use on 5 GHz links, said to have about 8 dB of gain (common practice, no source). */
export const stackInUse: DesignFile = {
  format: 1,
  name: 'Scene test',
  revision: 'A',
  band: { low: '5.15 GHz', high: '5.35 GHz' },
  reflector: { sheet: 'brass-1.0', size: { width: '75 mm', height: '100 mm' } },
  layer: [
    {
      name: 'driven',
      shape: 'rectangle',
      length: '22.1 mm',
      width: '30 mm',
      sheet: 'brass-0.5',
      spacer: 'm3-mf-6-brass',
    },
    {
      name: 'plate',
      shape: 'rectangle',
      length: '16 mm',
      width: '22 mm',
      sheet: 'brass-0.5',
      spacer: 'm3-mf-6-brass',
    },
    { name: 'disc', shape: 'circle', diameter: '16 mm', sheet: 'brass-0.5', spacer: 'm3-mf-6-brass' },
  ],
  feed: { kind: 'probe', from_edge: '4 mm', probe_diameter: '1 mm', solder_hole: '1.2 mm' },
  coax: { stock: 'semi-rigid-141' },
  hardware: { thread: 'M3', screw: 'm3-pan-6-brass', nut: 'm3-nut-brass' },
};

/** The assembly of a design that must come out. */
export function assemblyOf(file: DesignFile): Assembly {
  const { design, findings } = defineDesign(file);
  const assembled = design && assemble(design);
  if (assembled?.assembly) return assembled.assembly;
  throw new Error([...findings, ...(assembled?.findings ?? [])].map((finding) => renderFinding(finding)).join('\n'));
}
