import type { Sensitivity } from '@sheetwave/predict';
import { isRecord, isRequest, type PredictionRequest, parseJson } from '../prediction/prediction-record.ts';

/** Where the sensitivities of an antenna are in its pack. */
export const SENSITIVITIES_PATH = 'prediction/sensitivities.json';

/** What a tenth of a millimetre of each dimension does, with what it was made from. */
export interface SensitivityRecord {
  /** That of the prediction of the design as it stands: equal keys are the same antenna, asked alike, by the same solver. */
  readonly key: string;
  readonly request: PredictionRequest;
  /** Each path once; not all dimensions of the design when only some were asked for. */
  readonly sensitivities: readonly Sensitivity[];
}

const FORMAT = 1;

/** A record as JSON, with more for whoever reads it beside. `readSensitivities` reads back what was written, bit for bit. */
export function sensitivitiesText(record: SensitivityRecord, beside: Readonly<Record<string, unknown>> = {}): string {
  const { key, request, sensitivities } = record;
  const rows = sensitivities.map((one) => ({ ...one, halfStep: one.halfStep ?? null }));
  return `${JSON.stringify({ format: FORMAT, ...beside, key, request, sensitivities: rows }, null, 1)}\n`;
}

/** The record in a text, or undefined when there is none, or a number in it is none. Also reads what the command prints as JSON. */
export function readSensitivities(text: string): SensitivityRecord | undefined {
  const value = parseJson(text);
  if (!isRecord(value) || value.format !== FORMAT || typeof value.key !== 'string' || !isRequest(value.request)) {
    return undefined;
  }
  const { key, request } = value;
  if (!Array.isArray(value.sensitivities)) return undefined;
  const rows: readonly (Sensitivity | undefined)[] = value.sensitivities.map(rowOf);
  const sensitivities = rows.flatMap((row) => row ?? []);
  const paths = new Set(sensitivities.map(({ path }) => path));
  if (sensitivities.length !== rows.length || paths.size !== rows.length) return undefined;
  return { key, request, sensitivities };
}

const SET_BY: readonly Sensitivity['setBy'][] = ['cut', 'open', 'drill', 'spacer', 'bend', 'stock'];

function rowOf(value: unknown): Sensitivity | undefined {
  if (!isRecord(value)) return undefined;
  const { path, words, unit } = value;
  const setBy = SET_BY.find((one) => one === value.setBy);
  const [nominal, step, mhzPerTenthMm, dbPerTenthMm, bend] = [
    finite(value.nominal),
    finite(value.step),
    finite(value.mhzPerTenthMm),
    finite(value.dbPerTenthMm),
    finite(value.bend),
  ];
  const halfStep = value.halfStep === null ? null : finite(value.halfStep);
  const resonances = Array.isArray(value.resonances) ? resonancesOf(value.resonances) : undefined;
  if (
    typeof path !== 'string' ||
    typeof words !== 'string' ||
    (unit !== 'mm' && unit !== '') ||
    setBy === undefined ||
    nominal === undefined ||
    step === undefined ||
    mhzPerTenthMm === undefined ||
    dbPerTenthMm === undefined ||
    bend === undefined ||
    halfStep === undefined ||
    resonances === undefined
  )
    return undefined;
  const measured = { path, words, setBy, unit, nominal, step, mhzPerTenthMm, dbPerTenthMm, resonances, bend } as const;
  return { ...measured, halfStep: halfStep ?? undefined };
}

function resonancesOf(values: readonly unknown[]): Sensitivity['resonances'] | undefined {
  const rows = values.flatMap((value) => {
    const [freqHz, mhzPerTenthMm] = isRecord(value) ? [finite(value.freqHz), finite(value.mhzPerTenthMm)] : [];
    return freqHz === undefined || mhzPerTenthMm === undefined ? [] : [{ freqHz, mhzPerTenthMm }];
  });
  return rows.length === values.length ? rows : undefined;
}

const finite = (value: unknown): number | undefined =>
  typeof value === 'number' && Number.isFinite(value) ? value : undefined;
