import { type Dimension, dimensionsOf } from '@sheetwave/design';
import type { Assembly } from '@sheetwave/geometry';
import type { EstimateReport } from '@sheetwave/predict';
import type { PlanInput, SolvedSensitivities } from '../input.ts';
import { partOfDimension } from './part-of-dimension.ts';

/** How far one dimension moves the antenna, and how exact the workshop holds it. */
export interface Effect {
  readonly dimension: Dimension;
  /** Id of the part whose drawing shows it; undefined for what is bought at its size. */
  readonly part: string | undefined;
  /** Shift of the curve for a step more (see `stepOf`), with its error. */
  readonly mhz: number;
  readonly errorMhz: number;
  /** How much the worst reflection in the band grows for a step more, dB; undefined where no field was solved. */
  readonly db: number | undefined;
}

/** What the effects of a plan rest on. */
export interface Effects {
  /** `closed-forms` knows the driven patch alone. */
  readonly origin: 'closed-forms' | SolvedSensitivities['quality'];
  /** In the order of the design file; empty when no closed form knows the shape. */
  readonly effects: readonly Effect[];
  /** Dimensions of the design that nothing is known of. */
  readonly unknown: readonly Dimension[];
}

/** The step that an effect is for: 0.1 mm, or a hundredth of a permittivity. */
export const stepOf = ({ unit, nominal }: Dimension): number => (unit === '' ? nominal / 100 : 0.1);

/** From the field solution where there is one, else from the closed forms. */
export function effectsOf({ assembly, estimate, sensitivities }: PlanInput): Effects {
  const dimensions = dimensionsOf(assembly.design);
  const effects =
    sensitivities === undefined
      ? dimensions.flatMap((dimension) => ofClosedForms(dimension, { assembly, estimate }))
      : dimensions.flatMap((dimension) => ofFields(dimension, { assembly, solved: sensitivities.solved }));
  const known = new Set(effects.map(({ dimension }) => dimension.path));
  return {
    origin: sensitivities?.quality ?? 'closed-forms',
    effects,
    unknown: dimensions.filter(({ path }) => !known.has(path)),
  };
}

interface Solved extends Pick<SolvedSensitivities, 'solved'> {
  readonly assembly: Assembly;
}

/** The slope to either side of the nominal size differs by the bend: half of that is how far the slope in the middle may be off. */
function ofFields(dimension: Dimension, { assembly, solved }: Solved): readonly Effect[] {
  const row = solved.find(({ path }) => path === dimension.path);
  if (row === undefined) return [];
  return [
    {
      dimension,
      part: partOfDimension(assembly, dimension.path),
      mhz: row.mhzPerTenthMm,
      errorMhz: Math.abs(row.mhzPerTenthMm) * Math.max(row.bend / 2, row.halfStep ?? 0),
      db: row.dbPerTenthMm,
    },
  ];
}

interface Estimated {
  readonly assembly: Assembly;
  readonly estimate: EstimateReport;
}

function ofClosedForms(dimension: Dimension, { assembly, estimate }: Estimated): readonly Effect[] {
  const slope = (estimate.slopes ?? []).find((one) => pathOf(one).test(dimension.path));
  if (slope === undefined) return [];
  const { mhzPerTenthMm, errorMhz } = slope;
  const part = partOfDimension(assembly, dimension.path);
  return [{ dimension, part, mhz: mhzPerTenthMm, errorMhz, db: undefined }];
}

/** The path of what a closed form speaks of: a size of the driven patch, what holds it at its height, or its sheet. */
function pathOf({ dimension, sets }: NonNullable<EstimateReport['slopes']>[number]): RegExp {
  switch (sets) {
    case 'cut':
      return new RegExp(`^layer\\[0\\]\\.${dimension}$`);
    case 'gap':
      return /^(?:layer\[0\]\.spacer(?:\.printed)?|reflector\.board\.thickness)$/;
    case 'sheet':
      return /^layer\[0\]\.sheet$/;
  }
}
