import type { Finding } from '../finding.ts';
import { deepFreeze } from '../freeze.ts';
import { locateIn } from '../locate.ts';
import { createReport, type Report } from '../report.ts';
import { type FileForm, reportIssues } from '../schema/findings-of-issues.ts';
import { parseText, wholeFile } from '../toml.ts';
import { coverMaterials } from './cover-materials.ts';
import { readProfile } from './read-profile.ts';
import type { ProfilePoint, Site, SiteCover, SiteEnd, SiteTuning } from './site.ts';
import { type SiteFile, siteFileSchema, siteJsonSchema } from './site-schema.ts';

/** A site, or why there is none. An error never comes with a site. */
export interface SiteReading {
  readonly site: Site | undefined;
  /** About the site file. */
  readonly findings: readonly Finding[];
  /** About the profile; their lines are those of its own file. */
  readonly profileFindings: readonly Finding[];
}

const SITE_FORM: FileForm = { what: 'a site', schema: siteJsonSchema };
/** Largest site file that is read, in characters. */
const LARGEST = 1_000_000;

/** Why a site may not name this file as its profile, or undefined when it may. */
function problemAsProfileName(name: string): string | undefined {
  if (/[\\:\p{Cc}]/u.test(name) || name.startsWith('/')) return 'is not a path below the folder of the site';
  if (name.split('/').some((step) => step === '' || step === '.' || step === '..'))
    return 'is not a plain path below the folder of the site';
  return /\.csv$/i.test(name) ? undefined : 'is not a .csv file';
}

/** The profile that a site file names: what to read beside it and hand to `readSite`. Undefined for none, and for a name it may not use. */
export function namedProfile(text: string): string | undefined {
  const parsed = text.length > LARGEST ? undefined : parseText(text);
  if (parsed === undefined || 'finding' in parsed) return undefined;
  const { path } = (parsed.file ?? {}) as { readonly path?: unknown };
  const { profile } = (typeof path === 'object' && path !== null ? path : {}) as { readonly profile?: unknown };
  return typeof profile === 'string' && problemAsProfileName(profile) === undefined ? profile : undefined;
}

/**
 * Reads a site file (TOML, format 1) with the text of the profile it names. Never throws on text: what is wrong comes back as findings, and
 * then there is no site. The site is frozen.
 */
export function readSite(text: string, { profile }: { readonly profile?: string | undefined } = {}): SiteReading {
  if (text.length > LARGEST)
    return refused([wholeFile('too-large', 'larger than 1 MB and is no site file', 'give the site file itself')]);
  const parsed = parseText(text);
  if ('finding' in parsed) return refused([parsed.finding]);
  const report = createReport(locateIn(text));
  const read = siteFileSchema.safeParse(parsed.file);
  if (!read.success) {
    reportIssues(read.error.issues, { file: parsed.file, kind: SITE_FORM, base: [], report });
    return refused(report.findings);
  }
  const ground = profile === undefined ? undefined : readProfile(profile);
  const site = resolve(read.data, report, ground?.points);
  const profileFindings = ground?.findings ?? [];
  const failed = [...report.findings, ...profileFindings].some((finding) => finding.severity === 'error');
  return { site: failed ? undefined : site, findings: report.findings, profileFindings };
}

const refused = (findings: readonly Finding[]): SiteReading => ({ site: undefined, findings, profileFindings: [] });

function resolve(file: SiteFile, report: Report, profile: readonly ProfilePoint[] | undefined): Site | undefined {
  const tuning = tuningOf(file, report);
  const distanceM = distanceOf(file, report, profile);
  const cover = file.cover && coverOf(file.cover, report);
  if (tuning === undefined || distanceM === undefined) return undefined;
  const { radio, path, rules, wanted } = file;
  return deepFreeze({
    name: file.name ?? 'Link',
    date: file.date,
    radio: {
      tuning,
      widthMhz: widthOf(radio.width ?? '20 MHz'),
      standard: radio.standard ?? '802.11n',
      streams: radio.streams ?? 1,
      powerDbm: radio.power,
      controlsPower: radio.power_control ?? false,
      noiseFigureDb: radio.noise_figure ?? 6,
      rates: (radio.rate ?? [])
        .map(({ rate, sensitivity }) => ({ bitsPerSecond: rate, sensitivityDbm: sensitivity }))
        .sort((a, b) => a.bitsPerSecond - b.bitsPerSecond),
    },
    wanted: { bitsPerSecond: wanted?.rate, marginDb: wanted?.margin ?? 10 },
    path: {
      distanceM,
      profile,
      surface: path.surface === 'none' ? undefined : path.surface,
      roughnessM: path.roughness ?? 0,
      foliageM: path.foliage ?? 0,
      rainMmPerHour: path.rain ?? 60,
      polarisation: path.polarisation,
      refractivityPerKm: path.refractivity ?? -400,
    },
    near: endOf(file.near, 'near end'),
    far: endOf(file.far, 'far end'),
    rules: rules && { region: rules.region, conditions: rules.conditions ?? [] },
    wind: { speedMPerS: file.wind?.speed ?? 45 },
    cover,
  });
}

const WIDTHS = { '20 MHz': 20, '40 MHz': 40, '80 MHz': 80, '160 MHz': 160, '320 MHz': 320 } as const;
const widthOf = (width: keyof typeof WIDTHS) => WIDTHS[width];

function tuningOf({ radio }: SiteFile, report: Report): SiteTuning | undefined {
  const { band, channel, frequency } = radio;
  if (frequency !== undefined) {
    if (band === undefined && channel === undefined) return { kind: 'frequency', centreHz: frequency };
    return report.error({
      code: 'given-twice',
      path: ['radio', 'frequency'],
      allowed: 'stands beside band or channel, which say the same',
      remedy: 'give the frequency, or band and channel',
    });
  }
  if (band !== undefined && channel !== undefined) return { kind: 'channel', band, channel };
  return report.error({
    code: 'missing-field',
    path: ['radio', band === undefined ? 'band' : 'channel'],
    allowed: 'a band and a channel',
    remedy: 'write band = "5 GHz" and channel = 149, or frequency = "5.745 GHz"',
  });
}

function distanceOf(
  { path }: SiteFile,
  report: Report,
  profile: readonly ProfilePoint[] | undefined,
): number | undefined {
  if (path.profile !== undefined) {
    const problem = problemAsProfileName(path.profile);
    if (problem !== undefined) {
      const value = JSON.stringify(path.profile);
      return report.error({
        code: 'bad-file-name',
        path: ['path', 'profile'],
        value,
        allowed: problem,
        remedy: 'put the profile beside the site as a .csv file',
      });
    }
  }
  const length = profile?.at(-1)?.atM;
  const { distance } = path;
  if (distance === undefined) {
    if (length !== undefined || path.profile !== undefined) return length;
    return report.error({
      code: 'missing-field',
      path: ['path', 'distance'],
      allowed: 'a distance with its unit',
      remedy: 'give one, such as "640 m", or a profile',
    });
  }
  if (length !== undefined && Math.abs(length - distance) > 0.01 * distance) {
    return report.error({
      code: 'lengths-differ',
      path: ['path', 'distance'],
      value: `${distance} m`,
      allowed: `is not the length of the profile, ${length} m`,
      remedy: 'correct one of them, or leave the distance out',
    });
  }
  return length ?? distance;
}

function endOf(end: SiteFile['near'], fallback: string): SiteEnd {
  const { reflector } = end;
  return {
    name: end.name ?? fallback,
    heightM: end.height,
    cableDb: end.cable ?? 0,
    gainDbi: end.gain,
    powerDbm: end.power,
    reflector: reflector && { widthMm: reflector.width, heightMm: reflector.height },
  };
}

function coverOf(cover: NonNullable<SiteFile['cover']>, report: Report): SiteCover | undefined {
  const { material, permittivity, loss_tangent } = cover;
  const size = { thicknessMm: cover.thickness, distanceMm: cover.distance };
  if (material !== undefined && permittivity === undefined && loss_tangent === undefined)
    return { ...size, ...coverMaterials[material] };
  if (material === undefined && permittivity !== undefined)
    return { ...size, permittivity, lossTangent: loss_tangent ?? 0 };
  return report.error({
    code: material === undefined ? 'missing-field' : 'given-twice',
    path: ['cover', 'material'],
    allowed:
      material === undefined
        ? 'a material or a permittivity'
        : 'stands beside a permittivity or loss tangent of its own',
    remedy: 'write material = "asa", or permittivity = 2.7',
  });
}
