import type { Laminate, Screw, Spacer } from '@sheetwave/design';
import type { BoardPart, BoughtPart, Part } from './assembly.ts';
import { outlineArea, signedArea } from './contour-measure.ts';
import { bodyThicknessMm } from './measure/thickness.ts';

/** Copper, kg/m³ at 20 °C (memory: CRC Handbook, 8.93 to 8.96 g/cm³). */
const COPPER_KG_M3 = 8930;
/** Printed plastic, PETG, solid, kg/m³ (memory: makers' data sheets, 1.27 g/cm³). */
const PRINTED_KG_M3 = 1270;

/**
 * Mass of one piece of a part in kg: area or section times length times density.
 * Sheet: outline less cut-outs and holes. Board: dielectric without holes, plus its copper (clear pieces taken off, overlaps counted
 * twice). Rods by their blank, tubes by their section. Bought spacers: hexagon (√3/2 times the square of the width across flats) or disc, less a bore of
 * the thread's diameter over the thread depth, plus studs. Screws, nuts and washers as plain cylinders and hexagons at the nominal thread
 * diameter, good to a few per cent; coax by its mass per metre.
 */
export function partMassKg(part: Part): number {
  switch (part.form) {
    case 'plate':
      return kg(outlineArea(part.outline) * bodyThicknessMm(part), part.sheet.material.densityKgM3);
    case 'board':
      return boardMass(part, part.laminate);
    case 'rod':
      return kg(disc(part.rod.diameterMm) * part.developedLengthMm, part.rod.material.densityKgM3);
    case 'tube':
      return kg((disc(part.tube.outerMm) - disc(part.tube.boreMm)) * part.lengthMm, part.tube.material.densityKgM3);
    case 'printed-spacer':
      return kg((disc(part.outerMm) - disc(part.boreMm)) * part.heightMm, PRINTED_KG_M3);
    case 'bought':
      return boughtMass(part);
  }
}

function boardMass(part: BoardPart, laminate: Laminate): number {
  const dielectric = kg(outlineArea(part.outline) * laminate.thicknessMm, laminate.densityKgM3);
  const copper = [...part.copper.top, ...part.copper.bottom].reduce((total, piece) => {
    const area = Math.abs(signedArea(piece.contour));
    return piece.polarity === 'dark' ? total + area : total - area;
  }, 0);
  return dielectric + kg(copper * laminate.copperMm, COPPER_KG_M3);
}

function boughtMass({ item, lengthMm }: BoughtPart): number {
  switch (item.kind) {
    case 'spacer':
      return kg(spacerVolume(item), item.material.densityKgM3);
    case 'screw':
      return kg(screwVolume(item), item.material.densityKgM3);
    case 'nut':
      return kg((hexagon(item.acrossMm) - disc(threadMm(item.thread))) * item.heightMm, item.material.densityKgM3);
    case 'washer':
      return kg((disc(item.outerMm) - disc(item.innerMm)) * item.thicknessMm, item.material.densityKgM3);
    case 'coax':
      return ((lengthMm ?? 0) / 1000) * (item.massGPerM / 1000);
    case 'connector':
      return item.massG / 1000;
  }
}

function spacerVolume(spacer: Spacer): number {
  const thread = disc(threadMm(spacer.thread));
  const section = spacer.section === 'hexagon' ? hexagon(spacer.acrossMm) : disc(spacer.acrossMm);
  const females = spacer.ends.filter((end) => end === 'female').length;
  const bored = spacer.through || spacer.ends.includes('plain');
  const boreMm = bored ? spacer.bodyMm : Math.min(spacer.bodyMm, females * spacer.threadDepthMm);
  const studs = spacer.ends.filter((end) => end === 'male').length;
  return section * spacer.bodyMm - thread * boreMm + studs * thread * spacer.studMm;
}

/** A countersunk head is a cone within the length; the others are discs on top of it. */
function screwVolume(screw: Screw): number {
  const thread = disc(threadMm(screw.thread));
  if (screw.head !== 'countersunk') return thread * screw.lengthMm + disc(screw.headDiameterMm) * screw.headHeightMm;
  const [r, d] = [screw.headDiameterMm / 2, threadMm(screw.thread) / 2];
  const cone = (Math.PI * screw.headHeightMm * (r * r + r * d + d * d)) / 3;
  return cone + thread * (screw.lengthMm - screw.headHeightMm);
}

/** Nominal diameter of a metric thread: `M3` is 3 mm. */
function threadMm(thread: string): number {
  const diameter = Number(thread.replace(/^M/, ''));
  if (!(diameter > 0)) throw new Error(`thread ${thread}: not a metric thread such as M3`);
  return diameter;
}

const disc = (diameterMm: number): number => (Math.PI * diameterMm * diameterMm) / 4;
const hexagon = (acrossMm: number): number => (Math.sqrt(3) / 2) * acrossMm * acrossMm;
const kg = (volumeMm3: number, densityKgM3: number): number => volumeMm3 * 1e-9 * densityKgM3;
