import { z } from 'zod';
import { lengthField, say, stockIdField } from './fields.ts';

const range = (what: string) =>
  z
    .strictObject({
      from: lengthField(0.01, 5000, 'Smallest that may be chosen.'),
      to: lengthField(0.01, 5000, 'Largest that may be chosen.'),
      step: lengthField(0.001, 100, 'Step between choices, from the smallest on. Default: none.').optional(),
    })
    .meta({ description: `${what}: { from = "16 mm", to = "21 mm", step = "0.1 mm" }, or without step.` });

const free = (what: string) => range(what).optional();

const stockRange = z.strictObject({
  from: lengthField(0.01, 5000, 'Smallest that may be chosen.'),
  to: lengthField(0.01, 5000, 'Largest that may be chosen.'),
});

/** Out of stock: ids, or everything of the same make between two sizes. */
function freeStock(what: string, size: string, example: string) {
  return z
    .union([z.array(stockIdField('An item of stock that may be chosen.')).min(2).max(60), stockRange], {
      error: say({
        allowed: 'neither a list of stock nor a range',
        remedy: `write ${example}, or a range such as { from = "5 mm", to = "10 mm" }`,
      }),
    })
    .meta({
      description: `${what}: a list of stock such as ${example}, or { from = "5 mm", to = "10 mm" } for all of stock of the same make with that ${size}.`,
    })
    .optional();
}

const spacerChoice = z
  .union([z.array(stockIdField('A spacer that may be chosen.')).min(2).max(60), range('Height of a printed spacer')], {
    error: say({
      allowed: 'neither a list of spacers nor a range',
      remedy:
        'write ["m3-mf-5-brass", "m3-mf-6-brass"], or a range such as { from = "5 mm", to = "10 mm" } of spacers in stock',
    }),
  })
  .meta({
    description:
      'Spacer under the layer: a list of stock such as ["m3-mf-5-brass", "m3-mf-6-brass"], or { from = "5 mm", to = "10 mm" } for all spacers of stock of the same make and such a length. For a printed spacer the range of its height, and a step if you like.',
  })
  .optional();

const slot = z
  .strictObject({
    arm: free('Arm of a U slot'),
    base: free('Base of a U slot'),
    offset: free('Offset of a U slot'),
    length: free('Length of E slots'),
    spacing: free('Spacing of E slots'),
    width: free('Width of the slot'),
  })
  .meta({ description: 'Sizes of the slot.' })
  .optional();

const layer = z.strictObject({
  length: free('Length of the patch'),
  width: free('Width of the patch'),
  diameter: free('Diameter of a disc'),
  outer_diameter: free('Outside diameter of a ring'),
  inner_diameter: free('Inside diameter of a ring'),
  side: free('Side of a triangle'),
  cut_corners: z
    .strictObject({ size: free('Size of the cut corners') })
    .meta({ description: 'Sizes of the cut corners.' })
    .optional(),
  slot,
  spacer: spacerChoice,
});

const level = z.strictObject({
  stem: free('Stem of the level'),
  width: free('Width of its line'),
  rod: freeStock('Rod of the level', 'diameter', '["brass-rod-1.5", "brass-rod-2"]'),
  section: z
    .strictObject({
      length: free('Length of the section'),
      width: free('Width of the section'),
      tube: freeStock('Tube of the section', 'outside', '["brass-tube-3x0.5", "brass-tube-4x1"]'),
    })
    .meta({ description: 'The section of the level.' })
    .optional(),
});

const LEVEL = { error: say({ allowed: 'the number of a level', remedy: 'count from 1, from the coax outward' }) };

/** `[free]`: mirrors the design, with a range or a choice where the design has a value. */
export const freeSection = z
  .strictObject({
    layer: z
      .record(z.string(), layer)
      .meta({ description: 'By the name of the layer: layer.driven.length, layer.parasitic-1.spacer.' })
      .optional(),
    feed: z
      .strictObject({
        from_edge: free('Place of the pin'),
        depth: free('Depth of the inset'),
        gap: free('Gap of the inset'),
        probe_diameter: free('Diameter of the pin'),
      })
      .meta({ description: 'Sizes of the feed.' })
      .optional(),
    lattice: z
      .strictObject({ row_pitch: free('Pitch of the rows'), column_pitch: free('Pitch of the columns') })
      .meta({ description: 'Distances between the elements.' })
      .optional(),
    harness: z
      .strictObject({
        height: free('Height of the harness'),
        stem: free('Stem of every level'),
        width: free('Width of every line'),
        length: free('Length of the line of one element'),
        rod: freeStock('Rod of every level', 'diameter', '["brass-rod-1.5", "brass-rod-2"]'),
        level: z
          .record(z.string().regex(/^[1-9]\d?$/, LEVEL), level)
          .meta({
            description: 'By the number of the level, from 1 at the coax outward: harness.level.1.section.length.',
          })
          .optional(),
      })
      .meta({ description: 'Sizes of the harness.' })
      .optional(),
  })
  .meta({
    description:
      'What sizing may change, and how far. It mirrors the design: feed.from_edge = { from = "1 mm", to = "6 mm" }. Each field must be written in the design, where its start value stands.',
  });
