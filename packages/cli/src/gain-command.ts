import {
  type ErrorName,
  gainBySubstitution,
  gainOfThree,
  gainOnLink,
  type MeasuredGain,
  magnitudeAt,
} from '@sheetwave/bench';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { usageFailure } from './failure.ts';
import { frequencyText } from './number-words.ts';
import { quantityOf, quantityOption } from './quantity-option.ts';
import { readCheckedDesign } from './read-checked-design.ts';
import { readSweep } from './read-sweep.ts';
import type { Outcome } from './report.ts';
import { visible } from './terminal.ts';
import { textTable } from './text-table.ts';

const METHODS = ['substitution', 'three', 'link'] as const;
type Method = (typeof METHODS)[number];

/** Options that each method needs, and others that belong to it. */
const NEEDED: Readonly<Record<Method, readonly string[]>> = {
  substitution: ['level', 'known-level', 'known-gain'],
  three: ['first-second', 'first-third', 'second-third'],
  link: ['level', 'sent'],
};
const ALLOWED: Readonly<Record<Method, readonly string[]>> = {
  substitution: ['cables', 'known-reflection'],
  three: ['second-reflection', 'third-reflection'],
  link: ['far-gain', 'cables'],
};
const ERROR_NAMES: readonly ErrorName[] = [
  'level',
  'known-gain',
  'sent',
  'mismatch',
  'ripple',
  'alignment',
  'distance',
  'cables',
];

const LENGTHS = { units: { m: 1, cm: 0.01, mm: 0.001, km: 1000 }, example: '"6 m"', least: 1e-3 };
const FREQUENCIES = { units: { GHz: 1e9, MHz: 1e6 }, example: '"5.5 GHz"', least: 1e6 };
const GAINS = { units: { dBi: 1 }, example: '"10 dBi"' };
const LOSSES = { units: { dB: 1 }, example: '"0.4 dB"' };

/** `sheetwave gain DESIGN METHOD`. */
export async function runGain(context: Context): Promise<Outcome> {
  const { values, operands } = context;
  const method = METHODS.find((word) => word === operands[1]);
  if (method === undefined)
    throw usageFailure(`${visible(operands[1] ?? '')} is not a way to measure gain; give substitution, three or link`);
  requireOptions(method, values);
  const { checked } = await readCheckedDesign(context);
  const { design, assembly } = checked;
  const freqHz = quantityOption(values, 'freq', FREQUENCIES) ?? (design.band.lowHz + design.band.highHz) / 2;
  const own = Math.hypot(assembly.reflector.widthMm, assembly.reflector.heightMm) / 1000;
  const largestM = Math.max(own, quantityOption(values, 'other-size', LENGTHS) ?? 0);
  const distanceM = quantityOption(values, 'distance', LENGTHS) ?? 0;
  const setting = { freqHz, distanceM, largestM, errorsDb: errorsOf(context) };
  const gain = await gainBy(method, { context, setting });
  const warnings = warningsOf(gain, values);
  for (const warning of warnings) context.say(`warning: ${warning}\n`);
  return {
    exitCode: EXIT.done,
    json: { design: { name: design.name, revision: design.revision }, freqHz, gain, warnings, caution: CAUTION },
    text: textOf(`${design.name}, revision ${design.revision}`, freqHz, gain),
  };
}

function requireOptions(method: Method, values: Context['values']): void {
  const missing = [...NEEDED[method], 'distance'].find((name) => !values.has(name));
  if (missing !== undefined) throw usageFailure(`the method ${method} needs --${missing}`);
  const theirs = new Set(METHODS.flatMap((one) => [...NEEDED[one], ...ALLOWED[one]]));
  const own = new Set([...NEEDED[method], ...ALLOWED[method]]);
  const stray = [...values.keys()].find((name) => theirs.has(name) && !own.has(name));
  if (stray !== undefined) throw usageFailure(`--${stray} says nothing to the method ${method}; leave it out`);
}

function errorsOf({ lists }: Context): Partial<Record<ErrorName, number>> {
  const errors: Partial<Record<ErrorName, number>> = {};
  for (const text of lists.get('error') ?? []) {
    const [word = '', value = ''] = text.split('=');
    const name = ERROR_NAMES.find((one) => one === word.trim());
    const db = quantityOf(value, { ...LOSSES, least: 0 });
    if (name === undefined || db === undefined)
      throw usageFailure(
        `--error ${visible(text)} cannot be understood; write it like level="0.2 dB", with one of ${ERROR_NAMES.join(', ')}`,
      );
    errors[name] = db;
  }
  return errors;
}

interface Job {
  readonly context: Context;
  readonly setting: {
    readonly freqHz: number;
    readonly distanceM: number;
    readonly largestM: number;
    readonly errorsDb: Partial<Record<ErrorName, number>>;
  };
}

async function gainBy(method: Method, job: Job): Promise<MeasuredGain> {
  const { setting, context } = job;
  const level = (name: string) => levelOf(name, job);
  const cables = quantityOption(context.values, 'cables', LOSSES);
  const reflection = await reflectionOf('reflection', job);
  if (method === 'substitution')
    return gainBySubstitution({
      ...setting,
      levelDb: await level('level'),
      knownLevelDb: await level('known-level'),
      knownGainDbi: quantityOption(context.values, 'known-gain', GAINS) ?? Number.NaN,
      extraCableDb: cables ?? 0,
      reflection,
      knownReflection: await reflectionOf('known-reflection', job),
    });
  if (method === 'three')
    return gainOfThree({
      ...setting,
      firstSecondDb: await level('first-second'),
      firstThirdDb: await level('first-third'),
      secondThirdDb: await level('second-third'),
      reflection,
      otherReflections: [await reflectionOf('second-reflection', job), await reflectionOf('third-reflection', job)],
    });
  return gainOnLink({
    ...setting,
    levelDbm: await level('level'),
    sentDbm: await level('sent'),
    farGainDbi: quantityOption(context.values, 'far-gain', GAINS),
    cableDb: cables ?? 0,
    reflection,
  });
}

/** A level as it was read, or out of a sweep of two ports, from the first to the second. */
async function levelOf(name: string, { context, setting }: Job): Promise<number> {
  const text = context.values.get(name) ?? '';
  const typed = quantityOf(text, { units: { dB: 1, dBm: 1 }, example: '' });
  if (typed !== undefined) return typed;
  if (!/\.(?:s\d+p|ts)$/i.test(text))
    throw usageFailure(
      `--${name} ${visible(text)} cannot be understood; write it like "-42.5 dBm", or name a Touchstone file of two ports`,
    );
  const size = await sizeAt(text, { context, setting }, { to: 1, from: 0 });
  return 20 * Math.log10(size);
}

async function reflectionOf(name: string, job: Job): Promise<number | undefined> {
  const text = job.context.values.get(name);
  if (text === undefined) return undefined;
  const size = await sizeAt(text, job, { to: 0, from: 0 });
  if (size < 1) return size;
  throw usageFailure(
    `--${name} ${visible(text)} reflects ${size.toFixed(3)}, and nothing is left to measure; calibrate again`,
  );
}

async function sizeAt(
  name: string,
  { context, setting: { freqHz } }: Job,
  ports: { readonly to: number; readonly from: number },
): Promise<number> {
  const { file } = await readSweep(name, context);
  const size = magnitudeAt(file.response, freqHz, ports);
  const what = `S${ports.to + 1}${ports.from + 1} at ${frequencyText(freqHz)}`;
  if (size === undefined) throw usageFailure(`${visible(name)} has no ${what}; give another sweep, or --freq`);
  if (size > 0) return size;
  if (ports.to === ports.from) return 0;
  throw usageFailure(`${visible(name)} has nothing in ${what}; check the cables`);
}

const CAUTION =
  'The antenna sends while you measure: low power, nobody in the beam, and no work at a mast or a roof edge alone.';

function warningsOf({ distance }: MeasuredGain, values: Context['values']): readonly string[] {
  const { isEnough, distanceM, farFieldM, leastM, curvatureDb } = distance;
  const needed = Math.max(farFieldM, leastM);
  return [
    ...(isEnough
      ? []
      : [
          `${metres(distanceM)} is too near: ${metres(needed)} are needed (2D²/lambda ${metres(farFieldM)}, ten wavelengths ${metres(leastM)}); the gain reads up to ${curvatureDb.toFixed(2)} dB low`,
        ]),
    ...(values.has('reflection') ? [] : ['the antenna was not swept (--reflection); its mismatch stays in the gain']),
  ];
}

const metres = (value: number): string => `${value.toFixed(value < 10 ? 2 : 1)} m`;

const PART_WORDS: Readonly<Record<ErrorName, string>> = {
  level: 'level',
  'known-gain': 'gain of the other antenna',
  sent: 'power sent',
  mismatch: 'mismatch',
  ripple: 'second ray',
  alignment: 'alignment',
  distance: 'distance',
  cables: 'cables',
};

function textOf(title: string, freqHz: number, gain: MeasuredGain): string {
  const { distance, budget } = gain;
  const table = textTable([
    ...budget.parts.map(({ name, db, source }) => [`  ${PART_WORDS[name]}`, `${db.toFixed(2)} dB`, source]),
    ['  together', `${budget.totalDb.toFixed(2)} dB`, 'root of the sum of squares'],
  ]);
  return `${[
    visible(title),
    `Gain at ${frequencyText(freqHz)}: ${gain.gainDbi.toFixed(2)} dBi ± ${budget.totalDb.toFixed(2)} dB`,
    `With its mismatch (${gain.mismatchLossDb.own.toFixed(2)} dB): ${gain.realisedGainDbi.toFixed(2)} dBi`,
    `Distance ${metres(distance.distanceM)}; the far field of ${metres(distance.largestM)} begins at ${metres(distance.farFieldM)}, ten wavelengths are ${metres(distance.leastM)}. Free-space loss ${gain.freeSpaceLossDb.toFixed(2)} dB.`,
    '',
    'How far it may be off:',
    ...table,
    '',
    CAUTION,
  ].join('\n')}\n`;
}
