import { z } from 'zod';
import { choiceField, lengthField, stockIdField } from './fields.ts';
import { processField, reliefField } from './sections.ts';

const at = choiceField(
  ['inner', 'outer'],
  'Which end of each arm: inner is nearer the coax, outer nearer the elements.',
);
const sectionLength = lengthField(0.1, 1000, 'Length of the section along each arm.');
const lineWidth = (description: string) => lengthField(0.05, 100, description);

const levelCommon = {
  joins: choiceField(
    ['rows', 'columns'],
    'Which way the two children lie. Default: alternating, beginning at the elements.',
  ).optional(),
  stem: lengthField(
    0,
    1000,
    'Length of the stem from each bar end to its child. Default: stem of the harness.',
  ).optional(),
};

const rodLevel = z.strictObject({
  ...levelCommon,
  rod: stockIdField('Rod of this level. Default: rod of the harness.').optional(),
  section: z
    .strictObject({
      at,
      length: sectionLength,
      tube: stockIdField('Tube slid over the rod, such as brass-tube-3x0.5.'),
    })
    .meta({ description: 'A tube over the rod that lowers the impedance along part of each arm.' })
    .optional(),
});

const stripLevel = z.strictObject({
  ...levelCommon,
  width: lineWidth('Width of the line of this level. Default: width of the harness.').optional(),
  section: z
    .strictObject({ at, length: sectionLength, width: lineWidth('Width along the section.') })
    .meta({ description: 'Another width along part of each arm, which transforms the impedance.' })
    .optional(),
});

const topology = choiceField(
  ['tree', 'star'],
  'tree (default): each level splits in two. star: 2 or 4 arms from the coax.',
).optional();
const stem = lengthField(0, 1000, 'Stem of every level unless the level says otherwise. Default 0 mm.').optional();
const levelsMeta = {
  description:
    'The levels from the coax outward. Left out: all by default. A tree has one for each doubling, a star one.',
};

const rod = z.strictObject({
  kind: z.literal('rod').meta({ description: 'Round rods above the reflector.' }),
  topology,
  height: lengthField(0.2, 200, 'Height of the rod axis above the front face of the reflector.'),
  rod: stockIdField('Rod of every level unless the level says otherwise, such as brass-rod-2.').optional(),
  bend_radius: lengthField(0, 100, 'Inside radius of the bends. Default: 1.5 times the thickest rod.').optional(),
  stem,
  level: z.array(rodLevel).max(10).meta(levelsMeta).optional(),
});

const strip = z.strictObject({
  kind: z.literal('strip').meta({ description: 'Flat strips of sheet above the reflector.' }),
  topology,
  height: lengthField(0.2, 200, 'Height of the underside of the strip above the front face of the reflector.'),
  sheet: stockIdField('Sheet the strips are cut from, such as brass-0.5.'),
  width: lineWidth('Width of every level unless the level says otherwise.').optional(),
  process: processField.meta({ description: 'How the strips are cut. Default hand.' }).optional(),
  relief: reliefField.optional(),
  stem,
  level: z.array(stripLevel).max(10).meta(levelsMeta).optional(),
});

const microstrip = z.strictObject({
  kind: z.literal('microstrip').meta({ description: 'Lines etched on the board of the reflector.' }),
  topology: choiceField(['tree'], 'tree, the only one for etched lines.').optional(),
  width: lineWidth(
    'Width of every level unless the level says otherwise; for one element, of the line from the coax to the patch.',
  ).optional(),
  length: lengthField(
    0.5,
    1000,
    'Only for one element, and needed there: length of the line from the coax to the edge of the patch.',
  ).optional(),
  stem,
  level: z.array(stripLevel).max(10).meta(levelsMeta).optional(),
});

const none = z.strictObject({
  kind: z.literal('none').meta({ description: 'One element: the coax goes straight to its feed point.' }),
});

/** `[harness]` */
export const harnessSection = z
  .discriminatedUnion('kind', [rod, strip, microstrip, none])
  .meta({ description: 'What joins the elements to the coax. Needed for more than one element.' });
