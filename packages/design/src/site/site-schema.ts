import { z } from 'zod';
import {
  choiceField,
  countField,
  lengthField,
  numberField,
  quantityField,
  say,
  textField,
  yesNoField,
} from '../schema/fields.ts';
import type { JsonSchema } from '../schema/json-schema.ts';
import { coverMaterialNames } from './cover-materials.ts';
import { radioPowerField } from './power-field.ts';

const metres = (min: number, max: number, description: string) => quantityField('distance', { min, max }, description);
const decibels = (max: number, description: string) => quantityField('loss', { min: 0, max }, description);

const rateField = (description: string) => quantityField('rate', { min: 1e4, max: 100e9 }, description);

const radioSection = z
  .strictObject({
    band: choiceField(['2.4 GHz', '5 GHz', '6 GHz'], 'Band of the channel, with channel.').optional(),
    channel: countField(1, 233, 'Number of the channel, or of a 20 MHz channel within a wide one.').optional(),
    frequency: quantityField(
      'frequency',
      { min: 400e6, max: 30e9 },
      'Middle of the channel, instead of band and channel.',
    ).optional(),
    width: choiceField(
      ['20 MHz', '40 MHz', '80 MHz', '160 MHz', '320 MHz'],
      'Width of the channel. Default 20 MHz.',
    ).optional(),
    standard: choiceField(
      ['802.11a/g', '802.11n', '802.11ac', '802.11ax', '802.11be'],
      'Generation of IEEE 802.11, for rates and least sensitivities. Default 802.11n.',
    ).optional(),
    streams: countField(1, 8, 'Spatial streams. A panel with one coax carries one. Default 1.').optional(),
    power: radioPowerField('Power that the radio sends into its antenna socket, over all chains.'),
    power_control: yesNoField(
      'True when the radio lowers its power by itself where it can (TPC). Default false.',
    ).optional(),
    noise_figure: decibels(20, 'Noise figure of the receiver. Default 6 dB.').optional(),
    rate: z
      .array(
        z.strictObject({
          rate: rateField('Rate.'),
          sensitivity: quantityField('power', { min: -130, max: -10 }, 'Least power at which the receiver takes it.'),
        }),
      )
      .min(1, { error: say({ allowed: 'an empty list', remedy: 'leave it out for the rates of the standard' }) })
      .max(40, { error: say({ allowed: 'more than 40 rates', remedy: 'leave some out' }) })
      .meta({ description: 'Rates and sensitivities from the data sheet, instead of those of the standard.' })
      .optional(),
  })
  .meta({ description: 'The radio at both ends, and its channel.' });

const endSection = (description: string) =>
  z
    .strictObject({
      name: textField(60, 'What the place is called.').optional(),
      height: metres(0, 1000, 'Of the middle of the antenna above the ground there.'),
      cable: decibels(60, 'Loss of cable and plugs between radio and antenna. Default 0 dB.').optional(),
      gain: quantityField(
        'gain',
        { min: -20, max: 60 },
        'Gain of the antenna. Left out at the near end: that of the design; at the far end: the same as at the near end.',
      ).optional(),
      power: radioPowerField('Power of the radio at this end, where it differs.').optional(),
      reflector: z
        .strictObject({
          width: lengthField(5, 10_000, 'Width of the reflector.'),
          height: lengthField(5, 10_000, 'Height of the reflector.'),
        })
        .meta({
          description: 'Size of the antenna, for wind and for the most gain it can have. Default: that of the design.',
        })
        .optional(),
    })
    .meta({ description });

const pathSection = z
  .strictObject({
    distance: metres(
      1,
      200_000,
      'Between both antennas. May be left out with a profile, which then gives it.',
    ).optional(),
    profile: textField(
      200,
      'File with the ground along the path: a CSV file beside this one, first line "distance m,height m" or "distance m,height m,obstacle m".',
    ).optional(),
    surface: choiceField(
      ['water', 'ground', 'none'],
      'What throws a second ray back. With water or ground its loss counts where it takes away. Default none.',
    ).optional(),
    roughness: metres(
      0,
      100,
      'How far the surface lies off a plane (standard deviation). Default 0 m, a mirror.',
    ).optional(),
    foliage: metres(0, 400, 'Metres of leaves that the beam goes through. Default 0 m.').optional(),
    rain: quantityField(
      'rain',
      { min: 0, max: 300 },
      'Rain to hold out in, as passed for 0.01 % of the year. Default 60 mm/h.',
    ).optional(),
    polarisation: choiceField(
      ['vertical', 'horizontal'],
      'Direction of the electric field. Default: that of the design, or vertical.',
    ).optional(),
    refractivity: numberField(
      -1000,
      0,
      'Gradient of the refractivity in the lowest 65 m of the air not exceeded for 1 % of the year, N-units per km; for paths above 5 km. Default -400.',
    ).optional(),
  })
  .meta({ description: 'What lies between both ends.' });

const coverSection = z
  .strictObject({
    material: choiceField(coverMaterialNames, 'What the cover is made of; or give permittivity.').optional(),
    permittivity: numberField(1, 30, 'Relative permittivity, instead of a material.').optional(),
    loss_tangent: numberField(0, 1, 'Loss tangent, with permittivity. Default 0.').optional(),
    thickness: lengthField(0.01, 50, 'Thickness of the cover.'),
    distance: lengthField(0, 1000, 'From the outermost patch to the cover.'),
  })
  .meta({ description: 'A flat cover in front of the antenna.' });

const DATE = { error: say({ allowed: 'a date', remedy: 'write it as year-month-day, such as 2026-05-17' }) };

/** The whole site file as it is written and as it is read; what one part must be to another is checked in `read-site.ts`. */
export const siteFileSchema = z
  .strictObject({
    format: z
      .literal(1, {
        error: (issue) =>
          say({
            allowed: issue.input === undefined ? 'a format version' : 'is not a format this version reads',
            remedy: 'write format = 1',
          }),
      })
      .meta({ description: 'Version of this file format: 1.' }),
    name: textField(80, 'What the link is called.').optional(),
    date: z.iso.date(DATE).meta({ description: 'Date written into results, such as 2026-05-17.' }).optional(),
    notes: textField(10_000, 'Anything worth keeping with the site.').optional(),
    radio: radioSection,
    wanted: z
      .strictObject({
        rate: rateField('Rate that the link must carry. Default: the lowest of the radio.').optional(),
        margin: decibels(60, 'Margin that must be left. Default 10 dB.').optional(),
      })
      .meta({ description: 'What the link must do.' })
      .optional(),
    path: pathSection,
    near: endSection('The end that the design is for.'),
    far: endSection('The other end.'),
    rules: z
      .strictObject({
        region: textField(40, 'Whose rules hold: us, eu, uk, israel, taiwan, canada, australia or japan.'),
        conditions: z
          .array(
            choiceField(
              ['point-to-point', 'licence', 'coordination', 'client', 'indoor'],
              'point-to-point: fixed, and nothing else; licence or registration held; frequencies coordinated automatically; client of an access point; both ends indoors.',
            ),
          )
          .max(5, { error: say({ allowed: 'more than 5 words', remedy: 'give each once' }) })
          .meta({ description: 'What is true of this link, so that rules which ask for it may be used. Default none.' })
          .optional(),
      })
      .meta({ description: 'Without it nothing is said about what is legal.' })
      .optional(),
    wind: z
      .strictObject({
        speed: quantityField('speed', { min: 1, max: 120 }, 'Fastest gust to stand. Default 45 m/s.'),
      })
      .meta({ description: 'The wind on the reflector.' })
      .optional(),
    cover: coverSection.optional(),
  })
  .meta({
    title: 'sheetwave site',
    description: 'Where an antenna is to work: both ends, the path, the radio and the rules.',
  });

export type SiteFile = z.output<typeof siteFileSchema>;

/** JSON Schema (draft 2020-12) of a site file as written. A new object each time. */
export function siteJsonSchema(): JsonSchema {
  return z.toJSONSchema(siteFileSchema, { io: 'input' }) as JsonSchema;
}
