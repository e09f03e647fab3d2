import { z } from 'zod';
import { processIds } from '../stock/processes.ts';
import { fits, threads } from '../stock/threads.ts';
import {
  choiceField,
  countField,
  lengthField,
  numberField,
  quantityField,
  stockIdField,
  yesNoField,
} from './fields.ts';
import { clampField, foldField } from './reflector-making.ts';
import { handWords } from './shape.ts';

const BAND_RANGE = { min: 300e6, max: 30e9 };

/** `[band]` */
export const bandSection = z
  .strictObject({
    low: quantityField('frequency', BAND_RANGE, 'Lower edge of the band the antenna is for.'),
    high: quantityField('frequency', BAND_RANGE, 'Upper edge of the band the antenna is for.'),
  })
  .meta({ description: 'The band the antenna is for.' });

const orientationWords = ['vertical', 'horizontal'] as const;

/** `[targets]` */
export const targetsSection = z
  .strictObject({
    gain: quantityField('gain', { min: -10, max: 60 }, 'Gain you hope for, over isotropic.').optional(),
    vswr: numberField(1.01, 20, 'Largest voltage standing wave ratio over the band. Default 2.').optional(),
    polarisation: choiceField(
      [...orientationWords, ...handWords],
      'Electric field of the antenna as it hangs: vertical, horizontal, or, with opposite corners cut, left-hand or right-hand (circular).',
    ).optional(),
  })
  .meta({ description: 'What the antenna should reach; compared with, never assumed.' });

export const processField = z.enum(processIds);

/** Whether a part of sheet keeps to the grain. */
export const grainField = yesNoField(
  'True when the rolling direction of the sheet must run along the height of the part, so that it is not turned to save metal. Default false.',
);
/** What square corners of one part need. */
export const reliefField = choiceField(
  ['none', 'dog-bone'],
  'dog-bone cuts a relief into its inside corners, so that a square corner fits. Default none: as the process says.',
);

const sizeField = z.union(
  [
    z.literal('minimum'),
    z.strictObject({
      width: lengthField(5, 5000, 'Width of the reflector.'),
      height: lengthField(5, 5000, 'Height of the reflector.'),
    }),
  ],
  {
    error: 'is neither "minimum" nor a width and a height; write "minimum" or { width = "150 mm", height = "150 mm" }',
  },
);

/** `[reflector]` */
export const reflectorSection = z
  .strictObject({
    size: sizeField
      .meta({
        description: 'Size of the reflector: "minimum" (the default) or { width = "150 mm", height = "150 mm" }.',
      })
      .optional(),
    sheet: stockIdField('Sheet the reflector is cut from, such as brass-1.0. Give either sheet or board.').optional(),
    board: stockIdField(
      'Laminate whose bottom copper is the reflector, such as ptfe-glass-0.787-35. Give either sheet or board.',
    ).optional(),
    edge_margin: lengthField(
      0,
      2000,
      'Least distance from the outermost driven patch edge to the edge of the reflector.',
    ).optional(),
    corner_radius: lengthField(0, 500, 'Radius of the corners of the reflector. Default 0 mm.').optional(),
    grain: grainField.optional(),
    mounting_holes: z
      .strictObject({
        diameter: lengthField(0.5, 50, 'Diameter of the holes.'),
        inset: lengthField(1, 500, 'Distance of their centres from both edges.'),
      })
      .meta({ description: 'One hole near each corner: { diameter = "4.3 mm", inset = "8 mm" }.' })
      .optional(),
    fold: foldField.optional(),
    clamp: clampField.optional(),
    process: processField
      .meta({
        description:
          'How the reflector is made: hand (default for a sheet), laser, waterjet, mill or etch (default for a board).',
      })
      .optional(),
  })
  .meta({ description: 'The conducting plate behind the patches.' });

/** `[lattice]` */
export const latticeSection = z
  .strictObject({
    rows: countField(1, 1024, 'Rows of elements. Default 1; with columns at most 1024 elements.').optional(),
    columns: countField(1, 1024, 'Columns of elements. Default 1; with rows at most 1024 elements.').optional(),
    row_pitch: lengthField(1, 5000, 'Vertical distance between rows; needed with more than one row.').optional(),
    column_pitch: lengthField(
      1,
      5000,
      'Horizontal distance between columns; needed with more than one column.',
    ).optional(),
    orientation: choiceField(
      orientationWords,
      'Direction of the resonant length of the patches, and so of the electric field. Default vertical.',
    ).optional(),
  })
  .meta({ description: 'How many elements there are and how far apart. Left out: one element.' });

/** `[coax]` */
export const coaxSection = z
  .strictObject({
    stock: stockIdField('Cable that comes through the reflector, such as semi-rigid-141.'),
    connector: stockIdField(
      'Connector on its end or, of the board or panel kind, in its place, such as n-plug-cable.',
    ).optional(),
    sleeve_clearance: lengthField(
      0,
      5,
      'Radial clearance around the insulating sleeve in the reflector. Default 0.1 mm.',
    ).optional(),
    through_hole: lengthField(
      0.3,
      50,
      'Hole in the reflector for the sleeve. Default: dielectric of the coax plus twice the clearance, or the body of a panel connector.',
    ).optional(),
    solder_land: lengthField(
      0.5,
      100,
      'Diameter of the area around it that is tinned and soldered. Default: jacket of the coax plus 4 mm.',
    ).optional(),
    length: lengthField(
      0,
      30000,
      'Length of cable from the reflector to the connector. Default 300 mm, or 0 mm with a board or panel connector.',
    ).optional(),
  })
  .meta({ description: 'The cable and how it comes in.' });

export const threadField = z.enum(threads);

/** `[hardware]` */
export const hardwareSection = z
  .strictObject({
    thread: threadField.meta({ description: 'Thread of spacers and screws, M2 to M6. Default M3.' }).optional(),
    fit: choiceField(fits, 'ISO 273 series of the fixing holes: fine, medium (default) or coarse.').optional(),
    screw: stockIdField(
      'Screw, such as m3-pan-6-brass. Default: for threaded spacers the longest brass pan head that bottoms in none of them, else the shortest steel pan head that reaches through the stack.',
    ).optional(),
    nut: stockIdField('Nut, such as m3-nut-brass, the default.').optional(),
    washer: stockIdField('Washer, such as m3-washer-brass. Default none.').optional(),
  })
  .meta({ description: 'Screws and nuts that hold the stack.' });
