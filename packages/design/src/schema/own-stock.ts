import { z } from 'zod';
import { materialNames } from '../stock/materials.ts';
import { choiceField, lengthField, numberField, quantityField, textField, yesNoField } from './fields.ts';
import { ownIdField } from './names.ts';
import { threadField } from './sections.ts';

const label = textField(120, 'What a parts list prints. Default: the id.').optional();
const material = choiceField(materialNames, 'What it is made of.');
const thread = threadField.meta({ description: 'Its thread, M2 to M6.' });

const side = lengthField(5, 20000, 'One side of a sheet as sold.');
const sheet = z.strictObject({
  label,
  material,
  thickness: lengthField(0.02, 10, 'Thickness.'),
  sizes: z
    .array(z.tuple([side, side]))
    .min(1)
    .max(50)
    .meta({ description: 'Sizes sold, [width, height], small to large.' })
    .optional(),
});

const lengths = z
  .array(lengthField(5, 20000, 'A length as sold.'))
  .min(1)
  .max(50)
  .meta({ description: 'Lengths sold.' })
  .optional();
const rod = z.strictObject({ label, material, diameter: lengthField(0.2, 50, 'Diameter.'), lengths });
const tube = z.strictObject({
  label,
  material,
  outer: lengthField(0.3, 60, 'Outside diameter.'),
  bore: lengthField(0.1, 59, 'Inside diameter.'),
  lengths,
});

const end = choiceField(
  ['male', 'female', 'plain'],
  'male: a stud; female: a thread; plain: a bore the screw passes through.',
);
const spacer = z.strictObject({
  label,
  material,
  thread,
  ends: z.tuple([end, end]).meta({ description: 'End toward the reflector, then the end outward.' }),
  length: lengthField(0.2, 200, 'The height it gives between two sheets.'),
  stud: lengthField(0, 50, 'Length of a male stud. Default 6 mm with a male end.').optional(),
  thread_depth: lengthField(0, 200, 'Usable depth of a female thread. Default: the length.').optional(),
  across: lengthField(1, 50, 'Across flats of a hexagon, or the diameter of a round one.'),
  section: choiceField(['hexagon', 'round'], 'Its cross-section. Default hexagon.').optional(),
});

const screw = z.strictObject({
  label,
  material,
  thread,
  head: choiceField(['pan', 'button', 'socket', 'countersunk'], 'Its head.'),
  length: lengthField(1, 300, 'Length under the head; over all for a countersunk one.'),
  head_diameter: lengthField(1, 50, 'Diameter of the head.'),
  head_height: lengthField(0.2, 30, 'Height of the head.'),
});
const nut = z.strictObject({
  label,
  material,
  thread,
  across: lengthField(1, 50, 'Width across flats.'),
  height: lengthField(0.3, 30, 'Height.'),
});
const washer = z.strictObject({
  label,
  material,
  thread,
  inner: lengthField(1, 50, 'Inside diameter.'),
  outer: lengthField(1, 100, 'Outside diameter.'),
  thickness: lengthField(0.05, 10, 'Thickness.'),
});

const laminate = z.strictObject({
  label,
  permittivity: numberField(1, 100, 'Relative permittivity.'),
  loss_tangent: numberField(0, 1, 'Loss tangent.'),
  at: quantityField('frequency', { min: 1e6, max: 100e9 }, 'Frequency they are stated at.'),
  thickness: lengthField(0.02, 20, 'Thickness of the dielectric without copper.'),
  copper: lengthField(0.001, 1, 'Thickness of the copper, on both sides.'),
  density: numberField(20, 10000, 'Density in kg/m3. Default 2000.').optional(),
  lossy: yesNoField(
    'True when it loses several decibels in a patch, as glass-epoxy does. Default: loss tangent above 0.01.',
  ).optional(),
});

const coax = z.strictObject({
  label,
  impedance: quantityField('impedance', { min: 10, max: 200 }, 'Characteristic impedance.'),
  pin: lengthField(0.1, 30, 'Diameter of the centre conductor.'),
  dielectric: lengthField(0.2, 60, 'Diameter of the dielectric.'),
  jacket: lengthField(0.3, 80, 'Diameter of the outer conductor or jacket.'),
  velocity_factor: numberField(0.4, 1, 'Wave velocity over that of light.'),
  loss_at_1ghz: numberField(0, 100, 'Loss in dB per metre at 1 GHz.').optional(),
  loss_at_5ghz: numberField(0, 100, 'Loss in dB per metre at 5 GHz.').optional(),
  mass: numberField(0, 10000, 'Mass in grams per metre. Default 50.').optional(),
  bend_radius: lengthField(0.5, 1000, 'Smallest bend radius. Default: five times the jacket.').optional(),
});

const offset = lengthField(-100, 100, 'Place of the post from the pin.');
const connector = z.strictObject({
  label,
  impedance: quantityField('impedance', { min: 10, max: 200 }, 'Characteristic impedance. Default 50 ohm.').optional(),
  mount: choiceField(
    ['cable', 'board', 'panel'],
    'cable: on the end of the coax; board: soldered into the board of the reflector; panel: screwed to its back.',
  ),
  pin_hole: lengthField(0.1, 20, 'Board: hole for the pin.').optional(),
  posts: z
    .array(z.tuple([offset, offset, lengthField(0.1, 20, 'Hole for the post.')]))
    .max(16)
    .meta({ description: 'Board: ground posts as [x, y, hole] about the pin.' })
    .optional(),
  body_hole: lengthField(0.5, 50, 'Panel: hole for the dielectric or boss around the pin.').optional(),
  flange: lengthField(1, 100, 'Panel: side of the flange. Default: what its holes need.').optional(),
  flange_holes: z
    .array(z.tuple([offset, offset, lengthField(0.5, 20, 'Hole for the screw.')]))
    .min(1)
    .max(16)
    .meta({ description: 'Panel: holes for its screws as [x, y, hole] about the pin.' })
    .optional(),
  mass: numberField(0, 10000, 'Mass in grams. Default 5.').optional(),
});

function own<T extends z.ZodType>(item: T, noun: string) {
  return z
    .record(ownIdField, item)
    .meta({ description: `Your own ${noun} by id.` })
    .optional();
}

/** `[stock.sheet.my-brass]` and the like */
export const ownStockSection = z
  .strictObject({
    sheet: own(sheet, 'sheet'),
    rod: own(rod, 'rod'),
    tube: own(tube, 'tube'),
    spacer: own(spacer, 'spacers'),
    screw: own(screw, 'screws'),
    nut: own(nut, 'nuts'),
    washer: own(washer, 'washers'),
    laminate: own(laminate, 'laminates'),
    coax: own(coax, 'coax'),
    connector: own(connector, 'connectors'),
  })
  .meta({ description: 'Stock that the built-in catalogue lacks.' });
