import { z } from 'zod';
import { boxSection } from './box.ts';
import { feedSection } from './feed.ts';
import { choiceField, countField, lengthField, numberField, say, textField, yesNoField } from './fields.ts';
import { freeSection } from './free.ts';
import { harnessSection } from './harness.ts';
import { layerSection } from './layer.ts';
import { designNameField } from './names.ts';
import { ownStockSection } from './own-stock.ts';
import { etchSection, paperSection } from './paper.ts';
import { pricesSection } from './prices.ts';
import { printSection } from './print.ts';
import {
  bandSection,
  coaxSection,
  hardwareSection,
  latticeSection,
  reflectorSection,
  targetsSection,
} from './sections.ts';
import { tolerancesSection } from './tolerances.ts';

const processOverride = z
  .strictObject({
    kerf: lengthField(0, 10, 'Width of the cut.').optional(),
    compensate_kerf: yesNoField('True when cut files carry the tool path instead of the finished outline.').optional(),
    allowance: lengthField(0, 10, 'Left outside the finish line when rough cutting.').optional(),
    line_width: lengthField(
      0,
      3,
      'Width of the line of your pen or scriber: templates then show the finish line that wide, its inner edge on the finished edge. Default 0 mm, a hairline on the edge.',
    ).optional(),
    smallest_radius: lengthField(0, 50, 'Smallest radius of an inside corner.').optional(),
    inside_corners: choiceField(
      ['as-drawn', 'round', 'dog-bone'],
      'What cut files show at inside corners tighter than the process cuts: as-drawn (default by hand), round (default by machine), or dog-bone, a relief that a square corner fits into.',
    ).optional(),
    lead_in: lengthField(
      0,
      20,
      'Run-in of the jet or beam: outside the part, and inside its holes. Default 0 mm, which leaves it to the shop.',
    ).optional(),
    tabs: countField(
      0,
      12,
      'Bridges that hold a small part in its sheet, in a cut file of their own. Default 0.',
    ).optional(),
    tab_width: lengthField(0.05, 20, 'Width of the metal that is left at a bridge. Default 0.5 mm.').optional(),
    tab_below: lengthField(1, 5000, 'Parts whose larger side is below this get bridges. Default 50 mm.').optional(),
    spacing: lengthField(0, 100, 'Least distance between parts that are cut from one sheet.').optional(),
    edge_margin: lengthField(0, 200, 'Least distance of parts from the edge of their sheet.').optional(),
    etch_factor: numberField(
      0.3,
      20,
      'Copper thickness over what is lost on each side: 1 to 2 in a tray, 2 to 4 in a spray line. Default 1.4; gives the undercut unless that is given.',
    ).optional(),
    undercut: lengthField(0, 1, 'Copper lost on each side of a track while etching.').optional(),
    least_web: lengthField(0, 50, 'Least web between the edge of a hole and the edge of the part.').optional(),
    tolerance: lengthField(0, 10, 'What the process holds on a dimension, plus or minus.').optional(),
  })
  .meta({ description: 'What differs in your shop from the usual values.' })
  .optional();

const processSection = z
  .strictObject({
    hand: processOverride,
    laser: processOverride,
    waterjet: processOverride,
    mill: processOverride,
    etch: processOverride,
  })
  .meta({ description: 'Your own values for a process, such as [process.laser] kerf = "0.15 mm".' });

function formatProblem(value: unknown): { readonly allowed: string } {
  return { allowed: value === undefined ? 'a format version' : 'is not a format this version reads' };
}

const DATE = { error: say({ allowed: 'a date', remedy: 'write it as year-month-day, such as 2026-05-17' }) };
const NOTES = {
  error: say({ allowed: 'text of at most 10000 characters', remedy: 'write it between quotes and shorten it' }),
};

/** The whole design file, as it is written (`z.input`) and as it is read: lengths in mm, frequencies in Hz (`z.output`). */
export const designFileSchema = z
  .strictObject({
    format: z
      .literal(1, { error: (issue) => say({ ...formatProblem(issue.input), remedy: 'write format = 1' }) })
      .meta({ description: 'Version of this file format: 1.' }),
    name: designNameField,
    revision: textField(20, 'Revision of the design, such as A. Default A.')
      .min(1, { error: say({ allowed: 'is empty', remedy: 'write a revision such as "A"' }) })
      .optional(),
    notes: z
      .string(NOTES)
      .max(10_000, NOTES)
      .meta({ description: 'Anything worth keeping with the design.' })
      .optional(),
    date: z.iso
      .date(DATE)
      .meta({ description: 'Date written into the files, such as 2026-05-17. Left out: none is written.' })
      .optional(),
    band: bandSection,
    targets: targetsSection.optional(),
    reflector: reflectorSection,
    layer: z
      .array(layerSection)
      .min(1, {
        error: say({ allowed: 'needs at least one layer', remedy: 'add a [[layer]] table for the driven patch' }),
      })
      .max(8, { error: say({ allowed: 'has more than 8 layers', remedy: 'leave some out' }) })
      .meta({ description: 'The patches from the reflector outward; the first is the driven one.' }),
    feed: feedSection,
    lattice: latticeSection.optional(),
    harness: harnessSection.optional(),
    coax: coaxSection,
    box: boxSection.optional(),
    hardware: hardwareSection.optional(),
    print: printSection.optional(),
    paper: paperSection.optional(),
    etch: etchSection.optional(),
    free: freeSection.optional(),
    tolerances: tolerancesSection.optional(),
    process: processSection.optional(),
    stock: ownStockSection.optional(),
    prices: pricesSection.optional(),
  })
  .meta({ title: 'sheetwave design', description: 'One flat panel antenna: what its builder decides.' });

/** A design as written in a file, for `defineDesign`. */
export type DesignFile = z.input<typeof designFileSchema>;
/** A design file after its own schema: quantities are numbers in base units; stock is still ids. */
export type ReadFile = z.output<typeof designFileSchema>;
