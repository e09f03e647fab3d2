import { z } from 'zod';
import { choiceField, lengthField, quantityField, say } from './fields.ts';

/** Longest and shortest patch, mm. */
const [LEAST_MM, MOST_MM] = [0.5, 2000];
const sizeField = (description: string) => lengthField(LEAST_MM, MOST_MM, description);

export const handWords = ['left-hand', 'right-hand'] as const;

const cutCorners = z
  .strictObject({
    corners: choiceField(
      ['opposite', 'all'],
      'Which corners: opposite (two across from each other, for circular polarisation) or all four.',
    ),
    size: lengthField(0.05, 1000, 'How far each cut reaches along both edges.'),
    hand: choiceField(
      handWords,
      'For opposite corners: the hand of circular polarisation that decides which two are cut. Seen from in front with the feed below, right-hand cuts the lower left and upper right corners, left-hand the upper left and lower right ones. Default: targets.polarisation.',
    ).optional(),
  })
  .meta({
    description: 'Corners cut off at 45 degrees: { corners = "opposite", size = "3 mm", hand = "right-hand" }.',
  });

const slotCommon = {
  width: lengthField(0.1, 100, 'Width of the slot.'),
  end_radius: lengthField(
    0,
    50,
    'Radius of the corners inside the slot. Default: the smallest inside radius of the process, at most half the width of the slot.',
  ).optional(),
};

const uSlot = z.strictObject({
  kind: z.literal('u').meta({ description: 'One slot in the shape of a U, inside the patch.' }),
  arm: lengthField(0.2, 1000, 'Length of each arm, measured outside, with the base.'),
  base: lengthField(0.3, 1000, 'Width over the outside of both arms.'),
  offset: lengthField(0.1, 1000, 'From the edge of the patch to the outside of the base.'),
  edge: choiceField(
    ['near', 'far'],
    'Edge that the base lies along: near (the fed edge, default) or far. The arms point away from it.',
  ).optional(),
  ...slotCommon,
});

const eSlot = z.strictObject({
  kind: z.literal('e').meta({ description: 'Two slots that run in from one edge, so that the patch looks like an E.' }),
  length: lengthField(0.1, 1000, 'Depth of the slots from the edge.'),
  spacing: lengthField(0.2, 1000, 'Distance between the centre lines of the two slots.'),
  edge: choiceField(
    ['near', 'far'],
    'Edge that the slots run in from: near (the fed edge, default) or far.',
  ).optional(),
  ...slotCommon,
});

const slotField = z.discriminatedUnion('kind', [uSlot, eSlot]).meta({
  description: 'Slot in the patch: { kind = "u", ... } inside it, or { kind = "e", ... } in from one edge.',
});

export const rectangleFields = {
  shape: z.literal('rectangle').meta({
    description: 'A rectangle of length and width; its corners can be rounded or cut, and it can have a slot.',
  }),
  length: sizeField('Resonant dimension of the patch, along the electric field.'),
  width: sizeField('Dimension across the electric field.'),
  corner_radius: lengthField(0, 1000, 'Radius of its four corners. Default 0 mm.').optional(),
  cut_corners: cutCorners.optional(),
  slot: slotField.optional(),
};

export const circleFields = {
  shape: z.literal('circle').meta({ description: 'A disc of diameter.' }),
  diameter: sizeField('Diameter of the patch.'),
};

export const ringFields = {
  shape: z.literal('ring').meta({
    description:
      'A ring of outer_diameter and inner_diameter. It has no metal at its centre, so that a board carries it, not a sheet on a screw.',
  }),
  outer_diameter: sizeField('Outside diameter of the ring; a feed counts from here.'),
  inner_diameter: sizeField('Diameter of the opening.'),
};

export const triangleFields = {
  shape: z.literal('triangle').meta({
    description:
      'An equilateral triangle of side: one side below (the fed edge), a corner above, its centroid at the centre.',
  }),
  side: sizeField('Length of each side.'),
};

const FILE = {
  error: say({ allowed: 'the name of a drawing beside the design', remedy: 'write it as text, such as "wing.dxf"' }),
};

export const outlineFields = {
  shape: z.literal('outline').meta({ description: 'A closed outline from a drawing: file.' }),
  file: z
    .string(FILE)
    .min(1, FILE)
    .max(200, FILE)
    .meta({
      description:
        'The drawing, a .dxf or .svg of at most 1 MB in the folder of the design or below it, such as "wing.dxf". Every closed curve in it counts: one outside and its cut-outs. It is drawn as the patch is seen from in front, feed below.',
      examples: ['wing.dxf'],
    }),
  units: choiceField(
    ['mm', 'cm', 'm', 'um', 'in', 'mil'],
    'Unit of the drawing, only where the drawing does not say it itself.',
  ).optional(),
  turn: quantityField(
    'angle',
    { min: -360, max: 360 },
    'Turns the outline counter-clockwise. Default 0 deg.',
  ).optional(),
  centre: choiceField(
    ['centroid', 'origin'],
    'Point of the drawing that becomes the centre of the patch, where its fixing is: centroid (default, of the metal) or origin (of the drawing).',
  ).optional(),
};
