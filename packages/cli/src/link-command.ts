import { dirname, join, resolve } from 'node:path';
import { type Finding, namedProfile, placeFindings, readSite } from '@sheetwave/design';
import { antennaOf, type Link, type LinkAntenna, linkJson, linkWords, planLink, profilePicture } from '@sheetwave/link';
import { checkDesign } from '@sheetwave/pack';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { usageFailure } from './failure.ts';
import { keptPrediction } from './kept-prediction.ts';
import { writeNewFile } from './new-design-file.ts';
import { readBeside } from './read-beside.ts';
import { readDrawings } from './read-drawings.ts';
import { nameOfInput, readDesignText } from './read-input.ts';
import { countText, findingLines, type Outcome } from './report.ts';
import { visible } from './terminal.ts';

/** Findings of one file, with its name as messages show it. */
interface Told {
  readonly file: string;
  readonly findings: readonly Finding[];
}

/** `sheetwave link [DESIGN] [--site FILE] [--out FILE]`. */
export async function runLink(context: Context): Promise<Outcome> {
  const { operand, values, terminal } = context;
  const siteName = values.get('site') ?? siteBeside(operand);
  if (operand === '-' && siteName === '-') throw usageFailure('standard input can be the design or the site, not both');
  const antenna = operand === undefined ? NO_ANTENNA : await antennaIn(operand, context);
  const text = await readDesignText(siteName, terminal, 'site');
  const profileName = namedProfile(text);
  const profile = profileName === undefined ? undefined : await readProfile(siteName, profileName, context);
  const read = readSite(text, { profile });
  const planned =
    read.site === undefined || antenna.failed ? undefined : planLink({ site: read.site, antenna: antenna.antenna });
  const site: Told = {
    file: nameOfInput(siteName),
    findings: [...read.findings, ...placeFindings(planned?.findings ?? [], text)],
  };
  const told = [
    ...antenna.told,
    site,
    { file: visible(join(dirname(siteName), profileName ?? '')), findings: read.profileFindings },
  ];
  for (const { file, findings } of told)
    context.say(findingLines(findings, file, { output: terminal.stderr, env: terminal.env }));
  return planned?.link === undefined ? refused(context, told) : answered(context, planned.link, told);
}

const readProfile = (operand: string, name: string, { terminal }: Context): Promise<string> =>
  readBeside({ operand, name, kind: 'profile', owner: 'site', asText: 'CSV' }, terminal);

/** The site lies beside the design, or in the current folder. */
function siteBeside(operand: string | undefined): string {
  return operand === undefined || operand === '-' ? 'site.toml' : join(dirname(operand), 'site.toml');
}

interface Antenna {
  readonly antenna: LinkAntenna | undefined;
  readonly failed: boolean;
  readonly told: readonly Told[];
}

const NO_ANTENNA: Antenna = { antenna: undefined, failed: false, told: [] };

/** Of a design only its errors are told here: what else it is worth knowing for belongs to `check`. */
async function antennaIn(operand: string, context: Context): Promise<Antenna> {
  const { terminal } = context;
  const designText = await readDesignText(operand, terminal);
  const result = checkDesign({ designText, drawings: await readDrawings(designText, operand, terminal) });
  if (result.ok) {
    const kept = await keptPrediction(context, result);
    const known = { estimate: result.estimate, prediction: kept?.record.prediction };
    return { antenna: antennaOf(result.assembly, known), failed: false, told: [] };
  }
  const findings = result.findings.filter(({ severity }) => severity === 'error');
  return { antenna: undefined, failed: true, told: [{ file: nameOfInput(operand), findings }] };
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
