import { resolve } from 'node:path';
import { type Finding, placeFindings, type Site } from '@sheetwave/design';
import { antennaOf, type Link, type LinkAntenna, linkJson, linkWords, planLink, profilePicture } from '@sheetwave/link';
import { checkDesign, type SoundDesign } from '@sheetwave/pack';
import type { CoverPrediction } from '@sheetwave/predict';
import type { Context } from './context.ts';
import { keptCover } from './cover-cache.ts';
import { EXIT } from './exit-code.ts';
import { cacheFolder } from './kept-files.ts';
import { keptPrediction } from './kept-prediction.ts';
import { writeNewFile } from './new-design-file.ts';
import { readDrawings } from './read-drawings.ts';
import { nameOfInput, readDesignText } from './read-input.ts';
import { countText, findingLines, type Outcome } from './report.ts';
import { readSiteFile } from './site-file.ts';
import { visible } from './terminal.ts';

/** Findings of one file, with its name as messages show it. */
interface Told {
  readonly file: string;
  readonly findings: readonly Finding[];
}

/** `sheetwave link [DESIGN] [--site FILE] [--out FILE]`. */
export async function runLink(context: Context): Promise<Outcome> {
  const { operand, terminal } = context;
  const antenna = operand === undefined ? NO_ANTENNA : await antennaIn(operand, context);
  const { name, text, profilePath, read } = await readSiteFile(context);
  const cover = await coverIn(context, antenna, read.site);
  const planned =
    read.site === undefined || antenna.failed
      ? undefined
      : planLink({ site: read.site, antenna: antenna.antenna, cover });
  const site: Told = {
    file: nameOfInput(name),
    findings: [...read.findings, ...placeFindings(planned?.findings ?? [], text)],
  };
  const told = [...antenna.told, site, { file: profilePath, findings: read.profileFindings }];
  for (const { file, findings } of told)
    context.say(findingLines(findings, file, { output: terminal.stderr, env: terminal.env }));
  return planned?.link === undefined ? refused(context, told) : answered(context, planned.link, told);
}

interface Antenna {
  readonly antenna: LinkAntenna | undefined;
  /** What it was made of; undefined without a sound design. */
  readonly sound: SoundDesign | undefined;
  readonly failed: boolean;
  readonly told: readonly Told[];
}

const NO_ANTENNA: Antenna = { antenna: undefined, sound: undefined, failed: false, told: [] };

/** Of a design only its errors are told here: what else it is worth knowing for belongs to `check`. */
async function antennaIn(operand: string, context: Context): Promise<Antenna> {
  const { terminal } = context;
  const designText = await readDesignText(operand, terminal);
  const result = checkDesign({ designText, drawings: await readDrawings(designText, operand, terminal) });
  if (result.ok) {
    const kept = await keptPrediction(context, result);
    const known = { estimate: result.estimate, prediction: kept?.record.prediction };
    return { antenna: antennaOf(result.assembly, known), sound: result, failed: false, told: [] };
  }
  const findings = result.findings.filter(({ severity }) => severity === 'error');
  return { antenna: undefined, sound: undefined, failed: true, told: [{ file: nameOfInput(operand), findings }] };
}

/** What sheetwave cover found of this antenna in the cover of the site. */
async function coverIn(
  { terminal }: Context,
  { sound }: Antenna,
  site: Site | undefined,
): Promise<CoverPrediction | undefined> {
  if (sound === undefined || site?.cover === undefined) return undefined;
  return keptCover(cacheFolder(terminal.env), sound, site.cover);
}

const jsonFindings = (told: readonly Told[]) =>
  told.flatMap(({ file, findings }) => findings.map((finding) => ({ file, ...finding })));

function refused({ say }: Context, told: readonly Told[]): Outcome {
  const count = countText(told.flatMap(({ findings }) => findings));
  say(`The link cannot be worked out: ${count}. Nothing was written.\n`);
  return { exitCode: EXIT.designHasErrors, json: { findings: jsonFindings(told) }, text: '' };
}

async function answered({ values, switches, terminal }: Context, link: Link, told: readonly Told[]): Promise<Outcome> {
  const picture = values.get('out');
  if (picture !== undefined) {
    const text = new TextDecoder().decode(profilePicture(link));
    const { workingFolder } = terminal;
    await writeNewFile({ name: resolve(workingFolder, picture), workingFolder, text, force: switches.has('force') });
  }
  const wrote = picture === undefined ? '' : `\nWrote the profile of the path to ${visible(picture)}.\n`;
  return {
    exitCode: EXIT.done,
    json: { findings: jsonFindings(told), picture: picture ?? null, link: linkJson(link) },
    text: `${linkWords(link)}${wrote}`,
  };
}
