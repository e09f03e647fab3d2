import { z } from 'zod';
import { lengthField, numberField } from './fields.ts';

const plusMinus = (what: string) => lengthField(0.001, 20, `${what}, plus or minus.`).optional();

/** `[tolerances]` */
export const tolerancesSection = z
  .strictObject({
    cut: plusMinus('What cutting holds on the size of a patch or strip. Default: tolerance of its process'),
    drill: plusMinus(
      'What drilling holds on the place of a hole. Default: 0.25 mm by hand, else tolerance of the process',
    ),
    spacer: plusMinus('What a spacer holds on its length. Default: 0.1 mm, 0.25 mm of nylon'),
    bend: plusMinus('What bending and soldering hold on the place of a rod or strip. Default: 0.2 mm'),
    sheet: plusMinus('What the thickness of sheet holds. Default: EN 1652'),
    flatness: plusMinus('How far sheet bows over 300 mm. Default: 2 mm'),
    permittivity: numberField(
      0.01,
      50,
      'What the permittivity of a laminate holds, plus or minus percent. Default: 2, for glass-epoxy 5.',
    ).optional(),
  })
  .meta({
    description:
      'What your workshop and your stock hold, for the yield. Plus or minus is taken as two standard deviations: 95 of 100 parts lie within.',
  });
