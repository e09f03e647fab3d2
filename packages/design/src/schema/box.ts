import { z } from 'zod';
import { lengthField } from './fields.ts';

const hole = (what: string) => z.strictObject({ diameter: lengthField(1, 80, what) });

/** `[box]` */
export const boxSection = z
  .strictObject({
    part_of: z
      .literal('reflector', { error: 'is not "reflector"; write "reflector", or leave it out for a box of its own' })
      .meta({
        description: '"reflector" when the reflector is the back or the lid of the box; its holes are then in it.',
      })
      .optional(),
    wall: lengthField(
      0,
      100,
      'From the edge of the reflector to the inside of the wall of the box, seal included. Default 8 mm.',
    ).optional(),
    drain: hole('Diameter of the drain hole, 3 to 5 mm as a rule.')
      .meta({
        description: 'A hole at the lowest point, as hung and turned by a quarter: { diameter = "4 mm" }.',
      })
      .optional(),
    gland: hole('Diameter of the hole for the cable gland.')
      .meta({ description: 'A hole for a cable gland beside the coax: { diameter = "12.5 mm" }.' })
      .optional(),
  })
  .meta({ description: 'The box around the antenna. It is no part of the pack; only the holes it needs are.' });
