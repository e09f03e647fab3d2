import { z } from 'zod';
import { lengthField } from './fields.ts';

const probe = z.strictObject({
  kind: z
    .literal('probe')
    .optional()
    .meta({ description: 'A pin that rises from below and is soldered into the driven patch. The default.' }),
  from_edge: lengthField(0.1, 1000, 'Distance from the radiating edge of the driven patch to the centre of the pin.'),
  probe_diameter: lengthField(
    0.1,
    20,
    'Diameter of the pin. Default: the pin of the coax for one element without a harness, the outermost rod of a rod harness, else 1 mm.',
  ).optional(),
  solder_hole: lengthField(0.1, 25, 'Hole in the patch for the pin. Default: the pin plus 0.2 mm.').optional(),
});

const inset = z.strictObject({
  kind: z.literal('inset').meta({ description: 'A microstrip line that enters the patch between two slots.' }),
  depth: lengthField(0.1, 1000, 'Depth of the slots from the radiating edge.'),
  gap: lengthField(0.05, 50, 'Width of each slot.'),
});

const edge = z.strictObject({
  kind: z.literal('edge').meta({ description: 'A microstrip line that meets the middle of the radiating edge.' }),
});

/** `[feed]` */
export const feedSection = z
  .discriminatedUnion('kind', [probe, inset, edge])
  .meta({ description: 'How the power reaches the driven patch: probe (default), inset or edge.' });
