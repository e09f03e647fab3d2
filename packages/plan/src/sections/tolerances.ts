import { plain } from '@sheetwave/drawings';
import { list, type PlanBlock, paragraph, type Section, table } from '../document.ts';
import type { PlanInput, Sensitivity } from '../input.ts';
import { closedFormSensitivities } from '../sensitivities.ts';

/** Shift as a share of the band beyond which a dimension matters, and below which it does not. */
const MATTERS = 0.25;
const NOTHING = 0.05;

/** Which dimensions must be exact, and which need not be. */
export function tolerances(input: PlanInput): Section {
  const rows = input.sensitivities ?? closedFormSensitivities(input);
  return {
    id: 'tolerances',
    title: 'What must be exact, and what need not be',
    blocks: [
      ...(rows.length === 0 ? [paragraph(NONE)] : known(input, rows)),
      paragraph('Without a number of their own, by common practice:'),
      list(practice(input)),
    ],
  };
}

const NONE =
  'No closed form knows this shape, so there is no number for what a tenth of a millimetre does. Hold every dimension of the patches and every height as well as you can.';

function known(input: PlanInput, rows: readonly Sensitivity[]): readonly PlanBlock[] {
  const { band, layers } = input.assembly.design;
  const bandMhz = (band.highHz - band.lowHz) / 1e6;
  const head = ['dimension', 'workshop holds', '0.1 mm more shifts by', 'so it may be off by', 'verdict'];
  const origin =
    input.sensitivities === undefined ? 'From closed formulas for the driven patch.' : 'From the field solution.';
  const stack =
    layers.length > 1 && input.sensitivities === undefined
      ? ' Parasitic patches are not in it: hold their lengths and heights as closely as those of the driven one.'
      : '';
  return [
    paragraph(`The band is ${plain(bandMhz, 0)} MHz wide. ${origin}${stack}`),
    table(
      'What a tenth of a millimetre does',
      head,
      rows.map((row) => rowOf(row, bandMhz)),
    ),
  ];
}

function rowOf({ what, toleranceMm, mhzPerTenthMm, errorMhz }: Sensitivity, bandMhz: number): readonly string[] {
  const offMhz = Math.abs(mhzPerTenthMm) * toleranceMm * 10;
  const share = offMhz / bandMhz;
  const verdict = share >= MATTERS ? 'matters' : share < NOTHING ? 'does not matter' : 'matters a little';
  return [
    what,
    `± ${plain(toleranceMm)} mm`,
    `${plain(mhzPerTenthMm, 1)} ± ${plain(errorMhz, 1)} MHz`,
    `± ${plain(offMhz, 0)} MHz`,
    verdict,
  ];
}

function practice({ assembly }: PlanInput): readonly string[] {
  const { harness, layers } = assembly.design;
  return [
    'Alike matters more than exact: pieces of one kind filed together in a stack may all be 0.1 mm off, but not one of them alone.',
    ...(harness.kind === 'rod' || harness.kind === 'strip'
      ? ['Height of the harness: within 0.1 mm; lengths of its branches alike within 0.2 mm.']
      : []),
    ...(layers.length > 1 ? ['Centres of the layers of one stack: within 0.2 mm; edges parallel by eye.'] : []),
    'Outside of the reflector, its corners and mounting holes: 1 mm either way changes nothing that can be measured.',
    'Holes for screws: only that the screw goes through and the stack sits in its place.',
    'Bright or dull: tarnish does not matter, flux under a pin does.',
  ];
}
