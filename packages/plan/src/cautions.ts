import type { Assembly, Part } from '@sheetwave/geometry';

/** What can hurt the builder of this antenna, in the order in which it comes up. */
export function cautions(assembly: Assembly): string[] {
  const { parts } = assembly;
  return [
    ...(parts.some((part) => part.form === 'plate') ? SHEET : []),
    ...(parts.some(isEtched) ? ETCHING : []),
    ...SOLDERING,
    ...(parts.some((part) => part.form === 'printed-spacer') ? PRINTING : []),
    ...RADIO,
    ...OUTDOORS,
  ];
}

const SHEET = [
  'Cut sheet is sharp: wear gloves when handling it, but never at a rotating tool; deburr both faces.',
  'Clamp thin sheet between two boards when drilling; held by hand it climbs the drill. Wear eye protection.',
  'Sweep up chips with a brush; do not blow them. Dust of brass, some of which holds lead, is not for lungs or food: wash your hands.',
];
const ETCHING = [
  'Etchants burn and stain: gloves, goggles, apron, plastic trays, fresh air. Follow the data sheet of yours.',
  'Spent etchant holds copper: take it to a collection point, never pour it away.',
];
const SOLDERING = [
  'Soldering fume harms the lungs: draw it off at the iron. Wash your hands after leaded solder.',
  'Heated PTFE gives off poisonous fume: no flame on coax or boards that contain it.',
];
const PRINTING = ['Print with the enclosure closed and the fume drawn off.'];
const RADIO = [
  'Never transmit into a harness that is not connected to its patches or to a load.',
  'Do not look into, touch or stand close in front of an antenna that is transmitting. Keep the distance that your local exposure rules ask for.',
  'Stay within the power, frequencies and gain that your licence or the local rules allow.',
];
const OUTDOORS = [
  'Work on roofs, masts and near power lines is for trained people with fall protection; never alone, never in wind or thunder.',
  'Earthing, lightning protection and mains wiring: follow your local code and have a licensed electrician do it.',
];

function isEtched(part: Part): boolean {
  return part.form === 'board' && part.process.id === 'etch';
}
