import type { Tool } from '../document.ts';

const NAMES = {
  printer: 'printer and paper',
  rule: 'steel rule',
  caliper: 'caliper that reads 0.05 mm',
  glue: 'glue stick or thin double-sided tape',
  punch: 'centre punch and light hammer',
  drill: 'drill press with sharp drills; a step drill for holes above 5 mm',
  boards: 'two flat boards and clamps',
  saw: 'fret saw with a fine metal blade',
  files: 'flat and needle files, fine abrasive paper',
  glass: 'flat plate of glass',
  gloves: 'cut-resistant gloves (never at a turning drill)',
  glasses: 'safety glasses',
  brush: 'brush for chips',
  bender: 'bending brake, or a vice with two straight jaws',
  square: 'engineer’s square',
  'printer-3d': '3D printer, with ABS, ASA or polycarbonate',
  pliers: 'flat pliers and side cutters',
  iron: 'soldering iron of 60 W or more with a broad tip',
  plate: 'hot plate that holds 120 to 150 °C',
  solder: 'electronic solder and rosin flux',
  extraction: 'fume extraction at the joint',
  knife: 'fine saw or tube cutter, and a sharp knife',
  spanner: 'spanner or nut driver, and a screwdriver that fits',
  meter: 'resistance meter',
  analyser: 'vector network analyser for the band, with the calibration set of the connector',
  etching: 'trays, etchant, gloves, goggles and apron; see its data sheet',
  exposure: 'what transfers the film: photoresist and exposure lamp, or toner and a laminator',
  cleaner: 'isopropanol, cloth and brush',
} as const;

export type ToolId = keyof typeof NAMES;

/** The tools with these ids, each once, in the order of the list. */
export function toolsOf(ids: readonly string[]): readonly Tool[] {
  const wanted = new Set(ids);
  return Object.entries(NAMES).flatMap(([id, name]) => (wanted.has(id) ? [{ id, name }] : []));
}
