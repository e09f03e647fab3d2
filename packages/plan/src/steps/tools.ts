import type { Tool } from '../document.ts';

const NAMES = {
  printer: ['printer', 'with paper'],
  rule: ['steel rule', ''],
  caliper: ['caliper', 'reads 0.05 mm or finer'],
  glue: ['glue stick', 'or thin double-sided tape'],
  punch: ['centre punch', 'with a light hammer'],
  drill: ['drill press', 'sharp drills, and a step drill for holes above 5 mm'],
  boards: ['boards and clamps', 'two flat boards to clamp the sheet between'],
  saw: ['fret saw', 'fine metal blade'],
  files: ['files', 'flat and needle files, fine abrasive paper'],
  glass: ['plate of glass', 'flat'],
  gloves: ['gloves', 'cut-resistant; never at a turning drill'],
  glasses: ['safety glasses', ''],
  brush: ['brush', 'for chips'],
  bender: ['bending brake', 'or a vice with two straight jaws'],
  square: ['square', 'engineer’s'],
  'printer-3d': ['3D printer', 'with ABS, ASA or polycarbonate'],
  pliers: ['pliers', 'flat ones, and side cutters'],
  iron: ['soldering iron', '60 W or more, broad tip'],
  plate: ['hot plate', 'holds 120 to 150 °C'],
  solder: ['solder and flux', 'electronic solder, rosin flux'],
  extraction: ['fume extraction', 'at the joint'],
  knife: ['fine saw and knife', 'or a tube cutter and a knife'],
  spanner: ['spanner and screwdriver', 'that fit; a nut driver is better'],
  meter: ['resistance meter', ''],
  analyser: ['network analyser', 'for the band, with the calibration set of the connector'],
  etching: ['etching bath', 'trays, etchant, apron, goggles; see its data sheet'],
  exposure: ['film transfer', 'photoresist and exposure lamp, or toner and a laminator'],
  cleaner: ['isopropanol', 'with cloth and brush'],
} as const;

export type ToolId = keyof typeof NAMES;

/** The tools with these ids, each once, in the order of the list. */
export function toolsOf(ids: readonly string[]): readonly Tool[] {
  const wanted = new Set(ids);
  return Object.entries(NAMES).flatMap(([id, [name, detail]]) => (wanted.has(id) ? [{ id, name, detail }] : []));
}
