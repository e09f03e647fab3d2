export type { CheckResult, DesignInput, Drawings, MakePackInput, MakePackResult, SoundDesign } from './make-pack.ts';
export { checkDesign, makePack } from './make-pack.ts';
export { MANIFEST_PATH, type Manifest, type ManifestFile, type PackFile, readManifest } from './manifest.ts';
export { numbersBeside } from './prediction/numbers-beside.ts';
export { type PredictionSubject, predictionKey } from './prediction/prediction-key.ts';
export { PREDICTION_PATH } from './prediction/prediction-path.ts';
export {
  type PredictionRecord,
  type PredictionRequest,
  readRecord,
  readRequest,
  recordText,
  wordNumbers,
} from './prediction/prediction-record.ts';
export {
  readSensitivities,
  SENSITIVITIES_PATH,
  type SensitivityRecord,
  sensitivitiesText,
} from './sensitivities/sensitivity-record.ts';
export { readPackFile } from './swap/read-pack-file.ts';
export { problemOfPlace, type WritePackOptions, type WriteResult, writePack } from './swap/write-pack.ts';
export type { WriteProblem } from './swap/write-problem.ts';
