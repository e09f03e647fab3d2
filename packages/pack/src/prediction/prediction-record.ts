import type { FeedModel, Prediction, PredictionQuality } from '@sheetwave/predict';

/** What was asked of the field solver, as far as it changes the answer. */
export interface PredictionRequest {
  readonly feed: FeedModel;
  readonly quality: PredictionQuality;
  /** Solved on a second grid as well, to state the error that is left. */
  readonly twoMeshes: boolean;
  /** Frequencies of the sweep. */
  readonly points: number;
}

/** A prediction with what it was made from. */
export interface PredictionRecord {
  /** Digest of the antenna as the solver sees it, the request, and the solver: equal keys have equal predictions. */
  readonly key: string;
  readonly request: PredictionRequest;
  readonly prediction: Prediction;
}

const FORMAT = 1;

/** JSON has no word for numbers that are not finite: they become these words, and numbers again when they are read. */
const WORDS: Readonly<Record<string, number>> = {
  Infinity: Number.POSITIVE_INFINITY,
  '-Infinity': Number.NEGATIVE_INFINITY,
  NaN: Number.NaN,
};

/** For `JSON.stringify`: numbers that are not finite as words. */
export function wordNumbers(_key: string, value: unknown): unknown {
  return typeof value === 'number' && !Number.isFinite(value) ? String(value) : value;
}

function numbersOfWords(_key: string, value: unknown): unknown {
  return typeof value === 'string' && Object.hasOwn(WORDS, value) ? WORDS[value] : value;
}

/** A record as JSON, with more for whoever reads it beside. `readRecord` reads back what was written, bit for bit. */
export function recordText(record: PredictionRecord, beside: Readonly<Record<string, unknown>> = {}): string {
  const { key, request, prediction } = record;
  return `${JSON.stringify({ format: FORMAT, ...beside, key, request, prediction }, wordNumbers)}\n`;
}

/** The record in a text, or undefined when there is none that this version can read. */
export function readRecord(text: string): PredictionRecord | undefined {
  const value = parseJson(text);
  if (!isRecord(value) || value.format !== FORMAT || typeof value.key !== 'string') return undefined;
  const { key, request, prediction } = value;
  if (!isRequest(request) || !isPrediction(prediction)) return undefined;
  return { key, request, prediction };
}

/** A request alone, out of the text of a record; undefined when it is none. */
export function readRequest(text: string): PredictionRequest | undefined {
  const value = parseJson(text);
  return isRequest(value) ? value : undefined;
}

/** JSON with the words for numbers that are not finite; undefined for what is none. */
export function parseJson(text: string): unknown {
  try {
    return JSON.parse(text, numbersOfWords);
  } catch {
    return undefined;
  }
}

export function isRequest(value: unknown): value is PredictionRequest {
  return (
    isRecord(value) &&
    (value.feed === 'as-built' || value.feed === 'each-element') &&
    (value.quality === 'draft' || value.quality === 'normal' || value.quality === 'fine') &&
    typeof value.twoMeshes === 'boolean' &&
    typeof value.points === 'number'
  );
}

/** Told by its parts: the contents are vouched for by a digest, of the cache or of the manifest. */
function isPrediction(value: unknown): value is Prediction {
  const lists = ['ports', 'resonances', 'bands', 'matches', 'figures', 'gains', 'cuts', 'runs', 'doubts', 'findings'];
  return (
    isRecord(value) &&
    isRecord(value.response) &&
    isRecord(value.cost) &&
    lists.every((key) => Array.isArray(value[key]))
  );
}

export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
