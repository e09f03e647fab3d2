import type { Print } from '../design.ts';
import { PRINT_PROCESSES } from '../print-process.ts';
import type { ReadFile } from '../schema/design-file.ts';

/** Fills in the usual values of the way of printing. */
export function printOf(print: ReadFile['print'] = {}): Print {
  const process = print.process ?? 'filament';
  const usual = PRINT_PROCESSES[process];
  return {
    process,
    bedMm: print.bed === undefined ? usual.bedMm : { x: print.bed[0], y: print.bed[1] },
    holeAllowanceMm: print.hole_allowance ?? usual.holeAllowanceMm,
    fitClearanceMm: print.fit_clearance ?? usual.fitClearanceMm,
    wallMm: print.wall ?? 2,
    elephantFootMm: print.elephant_foot ?? usual.elephantFootMm,
    springBackDeg: print.spring_back ?? 3,
    bushingMm: print.bushing,
  };
}
