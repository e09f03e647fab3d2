import type { Finding, Site } from '@sheetwave/design';
import { nearestWords } from '@sheetwave/design';
import {
  apertureLimit,
  REGIONS,
  type Region,
  rulesFor,
  widthsIn,
  widthsOf,
  wifiChannel,
  wifiChannelNumbers,
} from '@sheetwave/rf';
import type { LinkAntenna } from './antenna.ts';
import { type AntennaGain, type ChannelGain, channelGain } from './antenna-gain.ts';
import { ratesOf } from './budget.ts';
import { bandsOf, isRegion } from './legal.ts';

/** A site whose parts go together: what the calculation begins with. */
export interface Checked {
  readonly freqHz: number;
  readonly widthHz: number;
  readonly channel: number | undefined;
  readonly region: Region | undefined;
  readonly polarisation: 'vertical' | 'horizontal';
  readonly near: CheckedEnd;
  readonly far: CheckedEnd;
  /** What the gain of the design's antenna rests on; undefined when the site gives all gains. */
  readonly designGain: AntennaGain | undefined;
}

export interface CheckedEnd {
  readonly name: string;
  readonly powerDbm: number;
  readonly cableDb: number;
  readonly gainDbi: number;
  /** How far the gain may be off; 0 for one that the site gives. */
  readonly gainErrorDb: number;
  /** What the antenna sends back into its cable, dB, and how far that may be off; 0 where it is not known. */
  readonly mismatchDb: number;
  readonly mismatchErrorDb: number;
  readonly gainFrom: 'site' | 'design' | 'as near';
  readonly reflector: { readonly widthM: number; readonly heightM: number } | undefined;
}

interface Question {
  readonly site: Site;
  readonly antenna: LinkAntenna | undefined;
}

type Told = Pick<Finding, 'code' | 'path' | 'value' | 'allowed' | 'remedy'>;

const error = (told: Told): Finding => ({ severity: 'error', ...told });
const warning = (told: Told): Finding => ({ severity: 'warning', ...told });

/** Looks up the channel, the region and the gains, and refuses what cannot be. `checked` is undefined exactly when a finding is an error. */
export function checkLink({ site, antenna }: Question): {
  readonly checked: Checked | undefined;
  readonly findings: readonly Finding[];
} {
  const findings: Finding[] = [];
  const tuned = tuningOf(site, findings);
  checkRates(site, findings);
  const region = regionOf(site, tuned, findings);
  const ends = tuned && endsOf({ site, antenna }, tuned, findings);
  if (tuned !== undefined && antenna !== undefined) checkBand(tuned, antenna, findings);
  const failed = findings.some(({ severity }) => severity === 'error');
  if (failed || tuned === undefined || ends === undefined) return { checked: undefined, findings };
  const known = antenna?.polarisation;
  const polarisation = site.path.polarisation ?? (known === 'horizontal' ? 'horizontal' : 'vertical');
  return { checked: { ...tuned, ...ends, region, polarisation }, findings };
}

interface Tuned {
  readonly freqHz: number;
  readonly widthHz: number;
  readonly channel: number | undefined;
}

function tuningOf({ radio }: Site, findings: Finding[]): Tuned | undefined {
  const { tuning, widthMhz } = radio;
  const widthHz = widthMhz * 1e6;
  if (tuning.kind === 'frequency') return { freqHz: tuning.centreHz, widthHz, channel: undefined };
  const { band, channel } = tuning;
  const found = wifiChannel(band, channel, widthMhz);
  if (found !== undefined) return { freqHz: found.centreHz, widthHz, channel: found.number };
  if (!widthsIn(band).includes(widthMhz)) {
    const allowed = `is not a width of the ${band} band`;
    const remedy = `use ${widthsIn(band).join(', ')} MHz`;
    findings.push(error({ code: 'unknown-width', path: 'radio.width', value: `${widthMhz} MHz`, allowed, remedy }));
  } else {
    const allowed = `is no channel of ${widthMhz} MHz in the ${band} band`;
    const remedy = `use one of ${shortList(wifiChannelNumbers(band, widthMhz))}`;
    findings.push(error({ code: 'unknown-channel', path: 'radio.channel', value: String(channel), allowed, remedy }));
  }
  return undefined;
}

/** Numbers side by side; a long row is cut in the middle. */
function shortList(numbers: readonly number[]): string {
  const shown = numbers.length > 30 ? [...numbers.slice(0, 12), '…', ...numbers.slice(-3)] : numbers;
  return shown.join(', ');
}

function checkRates(site: Site, findings: Finding[]): void {
  const { radio, wanted } = site;
  const rates = ratesOf(site);
  const last = rates.at(-1);
  if (last === undefined) {
    const allowed = `is not a width of ${radio.standard}`;
    const remedy = `use ${widthsOf(radio.standard).join(', ')} MHz, or another standard`;
    findings.push(
      error({ code: 'unknown-width', path: 'radio.width', value: `${radio.widthMhz} MHz`, allowed, remedy }),
    );
  } else if (wanted.bitsPerSecond !== undefined && wanted.bitsPerSecond > last.bitsPerSecond + 0.5) {
    const value = `${megabits(wanted.bitsPerSecond)} Mbit/s`;
    const allowed = `is more than the fastest rate of this radio, ${megabits(last.bitsPerSecond)} Mbit/s`;
    const remedy = 'want less, or use a wider channel, more streams or another standard';
    findings.push(error({ code: 'rate-out-of-reach', path: 'wanted.rate', value, allowed, remedy }));
  }
}

const megabits = (bits: number): number => Number((bits / 1e6).toFixed(1));

function regionOf({ rules }: Site, tuned: Tuned | undefined, findings: Finding[]): Region | undefined {
  if (rules === undefined) {
    const remedy = `add [rules] with a region (${REGIONS.join(', ')}) to compare the power with its limits`;
    findings.push({
      severity: 'note',
      code: 'no-region',
      path: '',
      value: '',
      allowed: 'no region is given, so nothing is said about what is legal',
      remedy,
    });
    return undefined;
  }
  const { region } = rules;
  if (!isRegion(region)) {
    const [near] = nearestWords(region, REGIONS, 1);
    const allowed = `one of ${REGIONS.map((word) => `"${word}"`).join(', ')}`;
    const remedy =
      near === undefined
        ? 'use one of these, or leave [rules] out and read the rules of your regulator'
        : `did you mean "${near}"?`;
    findings.push(
      error({ code: 'unknown-region', path: 'rules.region', value: JSON.stringify(region), allowed, remedy }),
    );
    return undefined;
  }
  if (tuned === undefined) return region;
  const [lowHz, highHz] = [tuned.freqHz - tuned.widthHz / 2, tuned.freqHz + tuned.widthHz / 2];
  if (rulesFor(region, { lowHz, highHz }).length > 0) return region;
  const value = `${lowHz / 1e6} to ${highHz / 1e6} MHz`;
  const allowed = `lies in no band that the table has for "${region}": ${bandsOf(region).join(', ')}`;
  const remedy = 'choose a channel within one of them, or leave [rules] out and read the rules of your regulator';
  findings.push(error({ code: 'unknown-band', path: 'rules.region', value, allowed, remedy }));
  return undefined;
}

type Ends = Pick<Checked, 'near' | 'far' | 'designGain'>;

/** A gain that is given is taken as it is. */
const given = (dbi: number): ChannelGain => ({ dbi, errorDb: 0, mismatchDb: 0, mismatchErrorDb: 0 });

function endsOf({ site, antenna }: Question, tuned: Tuned, findings: Finding[]): Ends | undefined {
  const { near, far } = site;
  const { freqHz, widthHz } = tuned;
  const known = antenna?.gain && channelGain(antenna.gain, freqHz - widthHz / 2, freqHz + widthHz / 2);
  const nearGain = near.gainDbi === undefined ? known : given(near.gainDbi);
  if (nearGain === undefined) {
    findings.push(error(missingGain(antenna)));
    return undefined;
  }
  const sized = (end: Site['near']) =>
    end.reflector && { widthM: end.reflector.widthMm / 1000, heightM: end.reflector.heightMm / 1000 };
  const nearReflector = sized(near) ?? antenna?.reflector;
  const same = far.gainDbi === undefined;
  const farReflector = sized(far) ?? (same ? nearReflector : undefined);
  checkAperture({ side: 'near', gainDbi: near.gainDbi, reflector: nearReflector, freqHz }, findings);
  checkAperture({ side: 'far', gainDbi: far.gainDbi, reflector: farReflector, freqHz }, findings);
  const endOf = (end: Site['near'], gain: ChannelGain) => ({
    name: end.name,
    powerDbm: end.powerDbm ?? site.radio.powerDbm,
    cableDb: end.cableDb,
    gainDbi: gain.dbi,
    gainErrorDb: gain.errorDb,
    mismatchDb: gain.mismatchDb,
    mismatchErrorDb: gain.mismatchErrorDb,
  });
  return {
    near: {
      ...endOf(near, nearGain),
      gainFrom: near.gainDbi === undefined ? 'design' : 'site',
      reflector: nearReflector,
    },
    far: {
      ...endOf(far, far.gainDbi === undefined ? nearGain : given(far.gainDbi)),
      gainFrom: same ? 'as near' : 'site',
      reflector: farReflector,
    },
    designGain: near.gainDbi === undefined ? antenna?.gain : undefined,
  };
}

function missingGain(antenna: LinkAntenna | undefined): Told {
  const told = { code: 'missing-field', path: 'near.gain', value: '' };
  if (antenna === undefined)
    return { ...told, allowed: 'a gain, as no design is given', remedy: 'give one, such as "14 dBi"' };
  return {
    ...told,
    allowed: 'a gain, as the estimate of this design has none and no field solution of it is kept',
    remedy: 'run sheetwave predict on the design, and then this again; or give a gain, such as "14 dBi"',
  };
}

interface GainClaim {
  readonly side: 'near' | 'far';
  readonly gainDbi: number | undefined;
  readonly reflector: { readonly widthM: number; readonly heightM: number } | undefined;
  readonly freqHz: number;
}

function checkAperture({ side, gainDbi, reflector, freqHz }: GainClaim, findings: Finding[]): void {
  if (gainDbi === undefined || reflector === undefined) return;
  const { widthM, heightM } = reflector;
  const { evenDbi, mostDbi } = apertureLimit(widthM, heightM, freqHz);
  if (gainDbi <= mostDbi) return;
  const size = `${millimetres(widthM)} x ${millimetres(heightM)} mm`;
  const allowed = `is more than a flat panel of ${size} can have: evenly lit it has 4 pi A / lambda² = ${evenDbi.toFixed(1)} dBi, and ${mostDbi.toFixed(1)} dBi with a quarter wavelength added on every side`;
  const remedy = 'correct the gain or the size of the reflector; more gain needs more area';
  findings.push(
    error({ code: 'gain-beyond-aperture', path: `${side}.gain`, value: `${gainDbi} dBi`, allowed, remedy }),
  );
}

const millimetres = (metres: number): number => Number((metres * 1000).toFixed(1));

function checkBand({ freqHz, widthHz }: Tuned, { band, name }: LinkAntenna, findings: Finding[]): void {
  const [low, high] = [freqHz - widthHz / 2, freqHz + widthHz / 2];
  if (low >= band.lowHz && high <= band.highHz) return;
  const value = `${low / 1e6} to ${high / 1e6} MHz`;
  const allowed = `is not within the band of "${name}", ${band.lowHz / 1e6} to ${band.highHz / 1e6} MHz`;
  const remedy = 'choose a channel in it, or a design for this one; gain and match are only known within the band';
  findings.push(warning({ code: 'channel-off-band', path: 'radio', value, allowed, remedy }));
}
