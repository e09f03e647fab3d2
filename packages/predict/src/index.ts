export { type EstimateReport, estimate } from './estimate.ts';
export type { EstimateLine } from './estimate-line.ts';
export { feedTree, type HarnessLine, harnessLine, wantedElementImpedance } from './harness-model.ts';
export type * from './prediction.ts';
