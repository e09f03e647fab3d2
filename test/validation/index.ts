export { CONVERGENCE_TITLES, convergenceCells, studyConvergence } from './convergence.ts';
export { describeProblem } from './published-row.ts';
export { readTable } from './read-table.ts';
export {
  MEAN_TITLES,
  markdownTable,
  meanCells,
  meanErrors,
  ROW_TITLES,
  reportRow,
  rowCells,
  textTable,
} from './report.ts';
export { solveRow } from './solve-row.ts';
