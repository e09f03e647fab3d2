export type { CoverChange, CoveredMode, CoverPrediction } from './cover/cover-prediction.ts';
export { coverWork, predictCover } from './cover/predict-cover.ts';
export { type EstimateReport, estimate, estimatedGain } from './estimate.ts';
export type { EstimateLine } from './estimate-line.ts';
export { gainWithin } from './gain-curve.ts';
export { feedTree, type HarnessLine, harnessLine, wantedElementImpedance } from './harness-model.ts';
export { type PredictionPlan, planPrediction } from './plan-prediction.ts';
export { predict } from './predict.ts';
export type { PredictionProgress, PredictOptions } from './predict-options.ts';
export type * from './prediction.ts';
export { type CoverReport, coverReport } from './report/cover-report.ts';
export { type PredictionReport, predictionReport, type ReportTable } from './report/prediction-report.ts';
export type { FlatCover, SceneCover } from './scene/cover.ts';
export { type AntennaScene, type SceneOptions, sceneOf } from './scene/scene-of.ts';
export type { Goal, Score } from './sizing/goal.ts';
export { startingStack } from './sizing/guided-start.ts';
export type { AtEnd, SizingLimits } from './sizing/limits.ts';
export {
  type Sizing,
  type SizingOptions,
  type SizingResult,
  type SizingStep,
  type SolvedDesign,
  sizeDesign,
} from './sizing/size-design.ts';
export {
  type Sensitivities,
  type Sensitivity,
  type SensitivityOptions,
  sensitivitiesOf,
} from './tolerance/sensitivity.ts';
export {
  type YieldCheck,
  type YieldOptions,
  type YieldReport,
  type YieldShare,
  yieldReport,
} from './tolerance/yield.ts';
