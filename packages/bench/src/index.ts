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
