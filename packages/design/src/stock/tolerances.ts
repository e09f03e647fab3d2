import type { Process } from './process.ts';
import { processes } from './processes.ts';
import { sheetToleranceMm } from './sheet-tolerance.ts';
import type { Certainty, Laminate, Sheet } from './types.ts';

/**
 * What a tool or a supplier holds, plus or minus: mm, for a permittivity its own unit. Taken as two standard deviations of a normal
 * distribution, so that 95 of 100 parts lie within (common practice, no source).
 */
export interface Tolerance {
  readonly plusMinus: number;
  readonly source: string;
  readonly certainty: Certainty;
}

const given = (plusMinus: number): Tolerance => ({ plusMinus, source: 'given in the design file', certainty: 'own' });

/** Values of `[tolerances]`, in mm and, for the permittivity, as a share; undefined where the file leaves the usual one. */
export interface OwnTolerances {
  readonly cutMm: number | undefined;
  readonly drillMm: number | undefined;
  readonly spacerMm: number | undefined;
  readonly bendMm: number | undefined;
  readonly sheetMm: number | undefined;
  readonly flatnessMm: number | undefined;
  readonly permittivity: number | undefined;
}

/** Of a size that the process cuts. */
export function cutTolerance(own: OwnTolerances, process: Process): Tolerance {
  if (own.cutMm !== undefined) return given(own.cutMm);
  return { plusMinus: process.toleranceMm, source: process.source, certainty: process.certainty };
}

/** Centre punch through a paper template: ±0.2 to 0.3 mm. */
const PUNCHED_MM = 0.25;

/** Of the place of a hole. A machine that cuts outlines cuts its holes as well. */
export function drillTolerance(own: OwnTolerances, process: Process): Tolerance {
  if (own.drillMm !== undefined) return given(own.drillMm);
  if (process.id !== 'hand' || process.toleranceMm !== processes.hand.toleranceMm) return cutTolerance(own, process);
  const source = 'centre punch through a paper template, +-0.2 to 0.3 mm (common practice, no source)';
  return { plusMinus: PUNCHED_MM, source, certainty: 'memory' };
}

/** How far a sheet bows over this length, where a flatness is stated. */
const FLATNESS_OVER_MM = 300;

function bowMm(own: OwnTolerances, spanMm: number): number {
  return (own.flatnessMm ?? 2) * (spanMm / FLATNESS_OVER_MM) ** 2;
}

/**
 * Of the height that a spacer gives under a patch of `spanMm`: its own length, and the bow of the patch (the curvature of the sheet is
 * taken as even, so that the bow grows as the span squared), added as squares.
 */
export function spacerTolerance(own: OwnTolerances, spacer: 'metal' | 'nylon' | 'printed', spanMm: number): Tolerance {
  const usual = own.spacerMm ?? (spacer === 'nylon' ? 0.25 : 0.1);
  const plusMinus = Math.hypot(usual, bowMm(own, spanMm));
  if (own.spacerMm !== undefined)
    return { ...given(plusMinus), source: 'given in the design file, with the bow of the sheet' };
  const source =
    'spacers +-0.1 mm of metal, +-0.25 mm of nylon, printed +-0.1 mm when measured; hobby sheet bows 1 to 3 mm over 300 mm (common practice, no source)';
  return { plusMinus, source, certainty: 'memory' };
}

/** Of the place of a bent rod or a soldered strip. */
export function bendTolerance(own: OwnTolerances): Tolerance {
  if (own.bendMm !== undefined) return given(own.bendMm);
  return {
    plusMinus: 0.2,
    source: 'bent over a jig and soldered in place (common practice, no source)',
    certainty: 'common practice',
  };
}

/** Of the thickness of a sheet; EN 1652 for copper alloys, taken for other metals too. */
export function sheetTolerance(own: OwnTolerances, sheet: Sheet): Tolerance {
  if (own.sheetMm !== undefined) return given(own.sheetMm);
  const table = sheetToleranceMm(sheet.thicknessMm, 350);
  if (table !== undefined) return { plusMinus: table, source: 'EN 1652, up to 350 mm wide', certainty: 'confirmed' };
  const source = 'a tenth of the thickness (common practice, no source)';
  return { plusMinus: sheet.thicknessMm / 10, source, certainty: 'common practice' };
}

/** Of the permittivity of a laminate, in units of the permittivity itself. */
export function permittivityTolerance(own: OwnTolerances, laminate: Laminate): Tolerance {
  if (own.permittivity !== undefined) return given(own.permittivity * laminate.permittivity);
  const share = laminate.lossy ? 0.05 : 0.02;
  const source = 'glass-epoxy +-5 %, antenna laminates +-2 % (data sheets, memory)';
  return { plusMinus: share * laminate.permittivity, source, certainty: 'memory' };
}

/** Of the dielectric thickness of a laminate: ±10 % as board houses state it. */
export function laminateTolerance(own: OwnTolerances, laminate: Laminate): Tolerance {
  if (own.sheetMm !== undefined) return given(own.sheetMm);
  return { plusMinus: laminate.thicknessMm / 10, source: 'board houses state +-10 % (memory)', certainty: 'memory' };
}
