import { z } from 'zod';
import { choiceField, lengthField, yesNoField } from './fields.ts';

/** `[paper]` */
export const paperSection = z
  .strictObject({
    size: choiceField(['a4', 'letter'], 'Paper in the printer: a4 (the default) or letter.').optional(),
    margin: lengthField(0, 25, 'What the printer leaves white at each edge. Default 8 mm.').optional(),
    overlap: lengthField(6, 40, 'What neighbouring pages of a large drawing show both. Default 10 mm.').optional(),
  })
  .meta({ description: 'The paper that drawings are printed on.' });

const printed = (way: string) =>
  lengthField(95, 105, `What 100 mm of a print of yours measures ${way} the sheet. Default 100 mm.`).optional();

/** `[etch]` */
export const etchSection = z
  .strictObject({
    film: choiceField(
      ['positive', 'negative'],
      'positive prints what is to stay copper black (the default; toner transfer), negative prints it clear.',
    ).optional(),
    mirror: yesNoField(
      'True prints each side mirrored, so that the printed face lies on the copper. Default true.',
    ).optional(),
    fill: choiceField(
      ['solid', 'hatched'],
      'hatched breaks large black areas by fine clear dashes, for a printer whose toner does not hold on them. Default solid.',
    ).optional(),
    measured: z
      .strictObject({ x: printed('across'), y: printed('up') })
      .meta({
        description:
          'What the two bars of 100 mm on a printed film measure: { x = "99.7 mm", y = "100.2 mm" }. The next film makes up for it.',
      })
      .optional(),
  })
  .meta({ description: 'How films for etching at home are printed.' });
