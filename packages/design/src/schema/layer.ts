import { z } from 'zod';
import { choiceField, lengthField, stockIdField } from './fields.ts';
import { partNameField } from './names.ts';
import { grainField, processField, reliefField } from './sections.ts';
import { circleFields, outlineFields, rectangleFields, ringFields, triangleFields } from './shape.ts';

const printedSpacer = z
  .strictObject({
    printed: lengthField(0.2, 200, 'Height of the printed tube.'),
    outer: lengthField(2, 100, 'Outside diameter of the printed tube.'),
  })
  .meta({ description: 'A printed tube around a through screw.' });

const spacerField = z.union([stockIdField('Spacer from stock, such as m3-mf-6-brass.'), printedSpacer], {
  error:
    'is neither a spacer from stock nor a printed one; write "m3-mf-6-brass" or { printed = "6 mm", outer = "8 mm" }',
});

const fixingHoleField = z.union(
  [z.literal('none'), lengthField(0.5, 50, 'Diameter of the hole at the centre of the patch.')],
  { error: 'is neither "none" nor a length with its unit; write "none" or "3.2 mm"' },
);

const common = {
  name: partNameField.optional(),
  sheet: stockIdField(
    'Sheet the patch is cut from, such as brass-0.5. Give one of sheet and board; neither for a first patch etched on the board of the reflector.',
  ).optional(),
  board: stockIdField('Laminate of a board of its own that the patch is etched on, such as fr4-0.8-35.').optional(),
  copper_side: choiceField(
    ['outward', 'inward'],
    'Side of its board that carries the patch: outward (default, away from the reflector) or inward.',
  ).optional(),
  border: lengthField(0, 100, 'How much its board is larger than the patch on each side. Default 3 mm.').optional(),
  spacer: spacerField
    .meta({
      description:
        'What carries the patch: an id of stock, or { printed = "6 mm", outer = "8 mm" }. Needed unless the patch is etched on the board of the reflector.',
    })
    .optional(),
  grain: grainField.optional(),
  relief: reliefField.optional(),
  fixing_hole: fixingHoleField
    .meta({
      description:
        'Hole at the centre, such as "3.2 mm". Default: the clearance hole of the hardware thread (ISO 273). "none" for a patch without a spacer.',
    })
    .optional(),
  process: processField
    .meta({
      description:
        'How the patch is made: hand (default for a sheet), laser, waterjet, mill or etch (default for a board).',
    })
    .optional(),
};

/** `[[layer]]` */
export const layerSection = z
  .discriminatedUnion('shape', [
    z.strictObject({ ...rectangleFields, ...common }),
    z.strictObject({ ...circleFields, ...common }),
    z.strictObject({ ...ringFields, ...common }),
    z.strictObject({ ...triangleFields, ...common }),
    z.strictObject({ ...outlineFields, ...common }),
  ])
  .meta({ description: 'One patch of the stack. Written from the reflector outward; the first is the driven patch.' });
