import { z } from 'zod';
import { choiceField, lengthField, numberField } from './fields.ts';

const sides = ['left', 'right', 'top', 'bottom'] as const;

/** `fold = { … }` of `[reflector]` */
export const foldField = z
  .strictObject({
    sides: z
      .union([z.literal('all'), z.array(z.enum(sides)).min(1).max(4)], {
        error: 'is neither "all" nor a list of sides; write "all" or ["left", "right"]',
      })
      .meta({ description: 'Edges to fold: "all", or some of left, right, top and bottom as seen from in front.' }),
    height: lengthField(1, 500, 'Height of a folded edge over all, with the thickness of the sheet.'),
    inside_radius: lengthField(0, 100, 'Inside radius of the bend. Default: the thickness of the sheet.').optional(),
    k_factor: numberField(
      0,
      0.5,
      'Where the neutral line lies in the bend, from the inside, as a share of the thickness. Default 0.33 below an inside radius of one thickness, 0.4 up to three, 0.5 above.',
    ).optional(),
    direction: choiceField(
      ['front', 'back'],
      'Toward the patches (front) or away from them (back, the default).',
    ).optional(),
  })
  .meta({
    description:
      'Folded edges: { sides = ["left", "right"], height = "12 mm" }. The size of the reflector is then that of its face over the folds.',
  });

/** `clamp = { … }` of `[reflector]` */
export const clampField = z
  .strictObject({
    pole: lengthField(10, 200, 'Outside diameter of the pole.'),
    spacing: lengthField(5, 400, 'Between the two legs of a U-bolt. Default: by the pole, up to 60 mm.').optional(),
    hole: lengthField(2, 30, 'Hole for a leg. Default: by the pole.').optional(),
    nut: lengthField(3, 50, 'Across flats of the nuts on the legs. Default: by the pole.').optional(),
    distance: lengthField(10, 3000, 'Between the two U-bolts. Default: the farthest that is free.').optional(),
    standoff: lengthField(
      0,
      300,
      'From the back of the reflector to the pole: brackets or blocks between them. Default 0 mm.',
    ).optional(),
  })
  .meta({ description: 'Holes for two U-bolts around an upright pole behind the reflector: { pole = "40 mm" }.' });
