import type { Summary } from './summary.ts';

/** The summary for programs: the numbers of the page, unrounded, in a fixed order of keys. */
export function summaryJson(summary: Summary): string {
  const { design, dimensions, estimate, holes, findings, notes, cautions } = summary;
  const { name, revision, date, band, lattice } = design;
  const page = {
    format: 1,
    tool: { name: 'sheetwave', version: summary.toolVersion },
    design: { name, revision, date: date ?? null, notes: design.notes, band },
    array: { rows: lattice.rows, columns: lattice.columns, orientation: lattice.orientation },
    dimensions,
    reflectorRule: summary.reflectorRule,
    estimate: { lines: estimate.lines, leavesOut: estimate.leavesOut, response: estimate.response ?? null },
    ...(summary.predictionReport && { prediction: summary.predictionReport }),
    parts: summary.parts,
    sheets: summary.sheets.map((line) => ({ ...line, largestLeft: line.largestLeft ?? null })),
    ...(summary.costs && { costs: summary.costs }),
    holes,
    bends: summary.bends,
    findings,
    notes,
    cautions,
    files: summary.files.map(({ path, kind, part }) => ({ path, kind, part: part ?? null })),
  };
  return `${JSON.stringify(page, refuseNonFinite, 2)}\n`;
}

/** JSON has no word for NaN or infinity and would quietly write null. */
function refuseNonFinite(key: string, value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value))
    throw new RangeError(`${key} is not a finite number: ${value}`);
  return value;
}
