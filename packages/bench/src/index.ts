export { type Comparison, type ComparisonInput, compareResponses } from './compare/compare.ts';
export type { FeaturePair } from './compare/pair-features.ts';
export { type Aim, type Bandwidth, type Feature, type FeatureKind, type Side, sideOf } from './compare/side.ts';
export { KIND_WORDS, mainPair } from './compare/verdict.ts';
export { magnitudeAt } from './gain/at-frequency.ts';
export type { ErrorBudget, ErrorName, ErrorPart } from './gain/budget.ts';
export type { DistanceCheck } from './gain/distance.ts';
export {
  type GainSetting,
  gainBySubstitution,
  gainOfThree,
  gainOnLink,
  type MeasuredGain,
  type OnLink,
  type Substitution,
  type ThreeAntennas,
} from './gain/methods.ts';
export { type Addition, addToLog, type BuildLog, type Digest, readBuildLog } from './log/build-log.ts';
export { type HistoryRow, type HistorySource, history } from './log/history.ts';
export type { KeptFile, LogEntry } from './log/log-entry.ts';
export {
  type AsBuiltText,
  asBuilt,
  asBuiltText,
  type CaliperReadings,
  type CaliperResult,
  readReadings,
} from './log/readings.ts';
export { type CrossFigures, type CutFigures, crossFigures, cutFigures, normalised } from './pattern/cut-figures.ts';
export { readTurntable, type Turntable, type TurntableReading } from './pattern/read-turntable.ts';
export { responseOfData } from './response-data.ts';
export { type Cable, cableLossDb, losslessCable, withoutCables } from './sweep/cable.ts';
export { checkSweep, type SweepExpectation } from './sweep/check-sweep.ts';
export { type CableFit, type FittedCable, fitCableEnd, fitDelay } from './sweep/fit-cable.ts';
export { sweepNoise } from './sweep/noise.ts';
export { againstReference } from './sweep/reference.ts';
export type { FrequencyUnit, NumberFormat, Parameter } from './touchstone/options.ts';
export type { TwoPortOrder } from './touchstone/order.ts';
export { readTouchstone } from './touchstone/read-touchstone.ts';
export type { NoisePoint, TouchstoneFile, TouchstoneOptions, TouchstoneReading } from './touchstone/touchstone-file.ts';
export { createTouchstoneReader, type TouchstoneReader } from './touchstone/touchstone-reader.ts';
export { type TouchstoneWriting, writeTouchstone } from './touchstone/write-touchstone.ts';
export {
  type ExpectedCurve,
  type TrimAdvice,
  type TrimCase,
  type TrimOption,
  type TrimStep,
  type TrimWay,
  trimAdvice,
} from './trim/advice.ts';
export type { AsBuilt, AsBuiltDimension, Readings, TrimSweep } from './trim/as-built.ts';
export { coversBand, readingsInMetres, type TrimPast, trimPast, trimSweep } from './trim/past.ts';
