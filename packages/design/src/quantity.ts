/** What a value with a unit measures. Base units: mm, Hz, ohm, dBi, degree; for a site m, m/s, mm/h, dB, dBm, bit/s. */
export type QuantityKind =
  | 'length'
  | 'frequency'
  | 'impedance'
  | 'gain'
  | 'angle'
  | 'distance'
  | 'speed'
  | 'rain'
  | 'loss'
  | 'power'
  | 'rate';

/** Closed range in base units. */
export interface Range {
  readonly min: number;
  readonly max: number;
}

/** A problem in words: `allowed` completes "<value> …" or names what is allowed, `remedy` is an imperative. */
export interface Problem {
  readonly code: string;
  readonly allowed: string;
  readonly remedy: string;
}

export type QuantityResult =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly problem: Problem };

/** Into the base unit: a factor, or what else has to be done. */
type ToBase = number | ((value: number) => number);

/** Factors to the base unit. The inch is exactly 25.4 mm (ISO 80000-3 remark, international inch of 1959); the mil is 1/1000 of it, the foot 12. */
const UNITS: Readonly<Record<QuantityKind, ReadonlyMap<string, ToBase>>> = {
  length: new Map([
    ['mm', 1],
    ['cm', 10],
    ['m', 1000],
    ['um', 0.001],
    ['\u00b5m', 0.001],
    ['\u03bcm', 0.001],
    ['in', 25.4],
    ['mil', 0.0254],
  ]),
  frequency: new Map([
    ['Hz', 1],
    ['kHz', 1e3],
    ['MHz', 1e6],
    ['GHz', 1e9],
  ]),
  impedance: new Map([['ohm', 1]]),
  gain: new Map([
    ['dBi', 1],
    ['dB', 1],
  ]),
  angle: new Map([['deg', 1]]),
  distance: new Map([
    ['m', 1],
    ['km', 1000],
    ['ft', 0.3048],
  ]),
  speed: new Map([
    ['m/s', 1],
    ['km/h', 1 / 3.6],
  ]),
  rain: new Map([
    ['mm/h', 1],
    ['in/h', 25.4],
  ]),
  loss: new Map([['dB', 1]]),
  power: new Map<string, ToBase>([
    ['dBm', 1],
    ['mW', (milliwatts) => 10 * Math.log10(milliwatts)],
    ['W', (watts) => 30 + 10 * Math.log10(watts)],
  ]),
  rate: new Map([
    ['Mbit/s', 1e6],
    ['kbit/s', 1e3],
    ['Gbit/s', 1e9],
  ]),
};

const WORDS: Readonly<Record<QuantityKind, { readonly noun: string; readonly units: string; readonly unit: string }>> =
  {
    length: { noun: 'a length', units: 'mm, cm, m, um, in or mil', unit: 'mm' },
    frequency: { noun: 'a frequency', units: 'Hz, kHz, MHz or GHz', unit: 'GHz' },
    impedance: { noun: 'an impedance', units: 'ohm', unit: 'ohm' },
    gain: { noun: 'a gain', units: 'dBi or dB', unit: 'dBi' },
    angle: { noun: 'an angle', units: 'deg', unit: 'deg' },
    distance: { noun: 'a distance', units: 'm, km or ft', unit: 'm' },
    speed: { noun: 'a speed', units: 'm/s or km/h', unit: 'm/s' },
    rain: { noun: 'a rain rate', units: 'mm/h or in/h', unit: 'mm/h' },
    loss: { noun: 'a loss', units: 'dB', unit: 'dB' },
    power: { noun: 'a power', units: 'dBm, mW or W', unit: 'dBm' },
    rate: { noun: 'a rate', units: 'Mbit/s, kbit/s or Gbit/s', unit: 'Mbit/s' },
  };

const NUMBER = String.raw`[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?`;
const WITH_UNIT = new RegExp(String.raw`^\s*(${NUMBER})\s*([A-Za-z\u00b5\u03bc]+(?:/[a-z]+)?)\s*$`);
const BARE = new RegExp(String.raw`^\s*${NUMBER}\s*$`);

/** Longest text read as a quantity; anything longer is not one. */
const LONGEST = 60;

/** Lengths are kept to 1e-6 mm and frequencies to 1 Hz, so that a converted inch is a short decimal. */
const STEPS_PER_UNIT: Readonly<Record<QuantityKind, number>> = {
  length: 1e6,
  frequency: 1,
  impedance: 1e6,
  gain: 1e6,
  angle: 1e6,
  distance: 1e6,
  speed: 1e6,
  rain: 1e6,
  loss: 1e6,
  power: 1e6,
  rate: 1,
};

function round(value: number, kind: QuantityKind): number {
  const steps = STEPS_PER_UNIT[kind];
  const rounded = Math.round(value * steps) / steps;
  return Object.is(rounded, -0) ? 0 : rounded;
}

/** Pattern that a quantity of the kind matches in a design file, for editors. */
export function quantityPattern(kind: QuantityKind): string {
  return String.raw`^\s*${NUMBER}\s*(?:${[...UNITS[kind].keys()].join('|')})\s*$`;
}

/** Words for the kind: `a length`, the units it takes, and an example. */
export function describeKind(kind: QuantityKind): {
  readonly noun: string;
  readonly units: string;
  readonly unit: string;
} {
  return WORDS[kind];
}

function fail(code: string, allowed: string, remedy: string): QuantityResult {
  return { ok: false, problem: { code, allowed, remedy } };
}

/** The unit a person probably meant, when only its capitals are wrong. */
function unitIgnoringCase(kind: QuantityKind, unit: string): string | undefined {
  return [...UNITS[kind].keys()].find((known) => known.toLowerCase() === unit.toLowerCase());
}

/** What to say about a value that is not text with a unit; a bare number gets the unit it lacks. */
export function problemOfOtherType(kind: QuantityKind, value: unknown): Problem {
  const { noun, unit } = WORDS[kind];
  if (typeof value === 'number' && Number.isFinite(value)) {
    return { code: 'missing-unit', allowed: `${noun} with its unit`, remedy: `write "${value} ${unit}"` };
  }
  if (value === undefined) {
    return { code: 'missing-field', allowed: `${noun} with its unit`, remedy: `give one, such as "6 ${unit}"` };
  }
  return { code: 'wrong-type', allowed: `${noun} with its unit`, remedy: `write it as text, such as "6 ${unit}"` };
}

function problemOfText(kind: QuantityKind, text: string): QuantityResult {
  const { noun, unit, units } = WORDS[kind];
  const clipped = text.trim();
  if (BARE.test(text) && text.length <= LONGEST) {
    return fail('missing-unit', `${noun} with its unit`, `write "${clipped} ${unit}"`);
  }
  if (/^[+-]?\d+,\d+\s*[A-Za-z]*$/.test(clipped) && clipped.length <= LONGEST) {
    return fail('decimal-comma', 'is written with a comma', `write a decimal point: "${clipped.replace(',', '.')}"`);
  }
  return fail('not-a-quantity', noun, `write a number and a unit (${units}), such as "6 ${unit}"`);
}

function checkRange(value: number, kind: QuantityKind, range: Range): QuantityResult {
  if (value >= range.min && value <= range.max) return { ok: true, value };
  const { noun } = WORDS[kind];
  const min = formatQuantity(range.min, kind);
  if (value <= 0 && range.min > 0) {
    return fail('out-of-range', noun, `give at least ${min}`);
  }
  const max = formatQuantity(range.max, kind);
  return fail(
    'out-of-range',
    `is outside ${min} to ${max}`,
    value < range.min ? `give at least ${min}` : `give at most ${max}`,
  );
}

/**
 * Reads `"6 mm"`, `"0.25 in"`, `"5.5 GHz"`, `"50 ohm"`, `"14 dBi"`, `"90 deg"` into base units (mm, Hz, ohm, dBi, degree).
 * Lengths are rounded to 1e-6 mm, frequencies to 1 Hz. Never throws; what is wrong comes back as a problem in words.
 */
export function parseQuantity(text: string, kind: QuantityKind, range?: Range): QuantityResult {
  const match = text.length <= LONGEST ? WITH_UNIT.exec(text) : null;
  const [, digits, unit] = match ?? [];
  if (digits === undefined || unit === undefined) return problemOfText(kind, text);
  const factor = UNITS[kind].get(unit);
  if (factor === undefined) {
    const meant = unitIgnoringCase(kind, unit);
    const { noun, units } = WORDS[kind];
    return fail(
      'unknown-unit',
      `${noun} in a known unit`,
      meant === undefined ? `use ${units}` : `write "${digits} ${meant}"`,
    );
  }
  const number = Number(digits);
  const value = round(typeof factor === 'number' ? number * factor : factor(number), kind);
  if (!Number.isFinite(value))
    return fail(
      'out-of-range',
      `${WORDS[kind].noun} of a sensible size`,
      // The logarithm of nothing and of less is no number.
      number <= 0 ? `give more than 0 ${unit}` : 'give a smaller number',
    );
  return checkRange(value, kind, range ?? { min: Number.NEGATIVE_INFINITY, max: Number.POSITIVE_INFINITY });
}

function decimal(value: number, places: number): string {
  const fixed = value.toFixed(places);
  return fixed.includes('.') ? fixed.replace(/0+$/, '').replace(/\.$/, '') : fixed;
}

/** `6` → `"6 mm"`, `0.787` → `"0.787 mm"`; to 1e-6 mm, never an exponent below 1e21 mm. */
export function formatLength(mm: number): string {
  return `${decimal(mm, 6)} mm`;
}

/** `5.725e9` → `"5.725 GHz"`, `300e6` → `"300 MHz"`; to 1 Hz, in the largest unit that gives at least 1. */
export function formatFrequency(hz: number): string {
  const size = Math.abs(hz);
  if (size >= 1e9) return `${decimal(hz / 1e9, 9)} GHz`;
  if (size >= 1e6) return `${decimal(hz / 1e6, 6)} MHz`;
  if (size >= 1e3) return `${decimal(hz / 1e3, 3)} kHz`;
  return `${decimal(hz, 0)} Hz`;
}

/** `50` → `"50 ohm"`. */
export function formatImpedance(ohm: number): string {
  return `${decimal(ohm, 6)} ohm`;
}

/** `14` → `"14 dBi"`. */
export function formatGain(dbi: number): string {
  return `${decimal(dbi, 6)} dBi`;
}

/** `90` → `"90 deg"`. */
export function formatAngle(deg: number): string {
  return `${decimal(deg, 6)} deg`;
}

/** `65e6` → `"65 Mbit/s"`. */
function formatRate(bitsPerSecond: number): string {
  return `${decimal(bitsPerSecond / 1e6, 6)} Mbit/s`;
}

const inUnit =
  (unit: string) =>
  (value: number): string =>
    `${decimal(value, 6)} ${unit}`;

const FORMATS: Readonly<Record<QuantityKind, (value: number) => string>> = {
  length: formatLength,
  frequency: formatFrequency,
  impedance: formatImpedance,
  gain: formatGain,
  angle: formatAngle,
  distance: inUnit('m'),
  speed: inUnit('m/s'),
  rain: inUnit('mm/h'),
  loss: inUnit('dB'),
  power: inUnit('dBm'),
  rate: formatRate,
};

/** Writes a value in base units as a design file has it; `parseQuantity` reads it back. */
export function formatQuantity(value: number, kind: QuantityKind): string {
  return FORMATS[kind](value);
}
