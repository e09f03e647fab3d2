import type { Finding } from '@sheetwave/design';
import type { Complex, Response } from '@sheetwave/rf';
import type { FrequencyUnit, NumberFormat, Parameter } from './options.ts';

/** Noise of a two-port at one frequency. */
export interface NoisePoint {
  readonly freqHz: number;
  readonly minimumFigureDb: number;
  /** Reflection of the source that gives it, against the reference. */
  readonly optimumReflection: Complex;
  /** Effective noise resistance, ohm. */
  readonly resistanceOhm: number;
}

/** What a Touchstone file holds, and how it was written down. */
export interface TouchstoneFile {
  /** Scattering parameters against one reference, whatever the file holds. */
  readonly response: Response;
  readonly ports: number;
  /** 1.1 stands for every file without `[Version]`. */
  readonly version: '1.1' | '2.0' | '2.1';
  readonly unit: FrequencyUnit;
  readonly parameter: Parameter;
  readonly format: NumberFormat;
  /** As the file gives them, one a port. The response's is the first of them. */
  readonly referenceOhm: readonly number[];
  readonly noise: readonly NoisePoint[];
  /** Comment lines without their mark, the first hundred. */
  readonly comments: readonly string[];
  /** Lines between `[Begin Information]` and `[End Information]`, the first hundred. */
  readonly information: readonly string[];
}

export type TouchstoneReading =
  | { readonly ok: true; readonly file: TouchstoneFile; readonly findings: readonly Finding[] }
  | { readonly ok: false; readonly findings: readonly Finding[] };

export interface TouchstoneOptions {
  /** Name of the file: its ending (`.s2p`) says how many ports it has. */
  readonly name?: string;
  /** Words for `response.method`; the name of the file when left out. */
  readonly method?: string;
  /** Most pairs of numbers that are kept in memory; 500,000 when left out. More is an error. */
  readonly mostPairs?: number;
}
