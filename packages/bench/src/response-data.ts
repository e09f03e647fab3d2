import { type Complex, checkedResponse, type Response, type ResponseError, type ResponseOrigin } from '@sheetwave/rf';

type Fields = Readonly<Record<string, unknown>>;

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
const isComplex = (value: unknown): value is Complex => isFields(value) && isNumber(value.re) && isNumber(value.im);
const isMatrix = (value: unknown): value is readonly (readonly Complex[])[] =>
  Array.isArray(value) && value.every((row) => Array.isArray(row) && row.every(isComplex));
const ORIGINS: readonly ResponseOrigin[] = ['estimate', 'prediction', 'measurement'];

function errorOf(value: unknown): ResponseError {
  if (!isFields(value)) return { origin: 'None is stated.' };
  const { frequency, coefficient, gainDb, origin } = value;
  return {
    ...(isNumber(frequency) ? { frequency } : {}),
    ...(isNumber(coefficient) ? { coefficient } : {}),
    ...(isNumber(gainDb) ? { gainDb } : {}),
    origin: typeof origin === 'string' ? origin : 'None is stated.',
  };
}

/**
 * A response out of data of unknown origin, such as JSON: the data themselves, or what they hold under `response` or
 * `prediction.response`. Only what is compared is taken. Undefined when there is none, or when its lists do not fit.
 */
export function responseOfData(data: unknown): Response | undefined {
  if (!isFields(data)) return undefined;
  const inner = isFields(data.prediction) ? data.prediction : data;
  const found = isFields(inner.response) ? inner.response : inner;
  const { origin, method, freqHz, referenceOhm, s } = found;
  if (!Array.isArray(freqHz) || !freqHz.every(isNumber) || freqHz.length === 0) return undefined;
  if (!isNumber(referenceOhm) || !Array.isArray(s) || !s.every(isMatrix)) return undefined;
  const known = ORIGINS.find((word) => word === origin) ?? 'prediction';
  try {
    return checkedResponse({
      origin: known,
      method: typeof method === 'string' ? method : 'Not stated.',
      error: errorOf(found.error),
      freqHz,
      referenceOhm,
      s,
    });
  } catch (error) {
    if (error instanceof RangeError) return undefined;
    throw error;
  }
}
