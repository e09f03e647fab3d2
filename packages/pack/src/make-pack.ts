import { type Design, type Finding, placeFindings } from '@sheetwave/design';
import type { Assembly, EmittedFile, Measurement, Nest, NestedSheet, Part } from '@sheetwave/geometry';
import { bendList, cautions, costsOf, holeCounts, partLines, sheetLines, shoppingList } from '@sheetwave/plan';
import { type EstimateReport, type Prediction, predictionReport } from '@sheetwave/predict';
import { MANIFEST_PATH, type Manifest, makeManifest, type PackFile } from './manifest.ts';
import { partsCsv } from './parts-csv.ts';
import type { PredictionRecord } from './prediction/prediction-record.ts';
import { isSafePath } from './safe-path.ts';
import { SENSITIVITIES_PATH, type SensitivityRecord, sensitivitiesText } from './sensitivities/sensitivity-record.ts';
import { realStages } from './stages.ts';
import type { Summary } from './summary.ts';
import { summaryJson } from './summary-json.ts';
import { summaryPage } from './summary-page.ts';

/** The steps of the way from text to files. The product's own in `stages.ts`; tests bring smaller ones. */
export interface Stages {
  readonly readDesign: (
    text: string,
    options: { readonly files: Drawings },
  ) => { readonly design: Design | undefined; readonly findings: readonly Finding[] };
  readonly assemble: (design: Design) => {
    readonly assembly: Assembly | undefined;
    readonly findings: readonly Finding[];
  };
  readonly validate: (assembly: Assembly) => readonly Finding[];
  readonly nest: (assembly: Assembly) => Nest;
  /** The findings are the warnings and notes of a design without errors: pictures show where they are. */
  readonly emit: readonly ((assembly: Assembly, findings: readonly Finding[]) => Emitted)[];
  /** The build plan in every form in which it is given, from what was drawn and what the summary says. */
  readonly writePlan: (
    checked: SoundDesign,
    summary: Summary,
    solved: {
      readonly prediction: Prediction | undefined;
      readonly sensitivities: SensitivityRecord | undefined;
    },
  ) => readonly EmittedFile[];
  readonly measure: (assembly: Assembly) => readonly Measurement[];
  readonly estimate: (assembly: Assembly) => EstimateReport;
  readonly massKg: (part: Part) => number;
  readonly findingText: (finding: Finding) => string;
}

export interface Emitted {
  readonly files: readonly EmittedFile[];
  /** What a builder should know about these files. */
  readonly notes: readonly string[];
}

/** Texts of the drawings that a design names, by those names. */
export type Drawings = Readonly<Record<string, string>>;

/** A design file and the drawings it names. */
export interface DesignInput {
  /** The whole design file. */
  readonly designText: string;
  /** Default none. */
  readonly drawings?: Drawings;
}

export interface MakePackInput extends DesignInput {
  readonly toolVersion: string;
  /** Asked for a prediction of the design once it is known to be sound; default none. */
  readonly predictionOf?: (sound: SoundDesign) => Promise<PredictionRecord | undefined>;
  /** The same for what each dimension does. */
  readonly sensitivitiesOf?: (sound: SoundDesign) => Promise<SensitivityRecord | undefined>;
}

/** A design that has been read and checked, or what is wrong with it. */
export type CheckResult = SoundDesign | { readonly ok: false; readonly findings: readonly Finding[] };

/** A design without errors. */
export interface SoundDesign {
  readonly ok: true;
  readonly design: Design;
  readonly assembly: Assembly;
  /** The sheets to buy, with what is cut from each. */
  readonly sheets: readonly NestedSheet[];
  readonly estimate: EstimateReport;
  readonly findings: readonly Finding[];
}

export type MakePackResult =
  | {
      readonly ok: true;
      readonly findings: readonly Finding[];
      readonly design: Design;
      readonly manifest: Manifest;
      /** Every file of the pack, `pack.json` last. */
      readonly files: readonly PackFile[];
    }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** Reads, assembles, checks and estimates a design. Not ok exactly when a finding is an error. */
export function checkDesign(input: DesignInput, stages: Omit<Stages, 'emit' | 'writePlan'> = realStages): CheckResult {
  const read = stages.readDesign(input.designText, { files: input.drawings ?? {} });
  if (read.design === undefined || hasError(read.findings)) return refused(read.findings);
  const assembled = stages.assemble(read.design);
  const findings = [...read.findings, ...assembled.findings];
  if (assembled.assembly === undefined || hasError(findings)) return refused(findings);
  findings.push(...stages.validate(assembled.assembly));
  if (hasError(findings)) return refused(findings);
  const nested = stages.nest(assembled.assembly);
  findings.push(...nested.findings);
  if (hasError(findings)) return refused(findings);
  const estimate = stages.estimate(assembled.assembly);
  findings.push(...estimate.findings);
  if (hasError(findings)) return refused(findings);
  const { assembly } = assembled;
  return { ok: true, design: read.design, assembly, sheets: nested.sheets, estimate, findings };
}

function hasError(findings: readonly Finding[]): boolean {
  return findings.some((finding) => finding.severity === 'error');
}

function refused(findings: readonly Finding[]): CheckResult {
  if (!hasError(findings)) throw new Error('a design was refused without a finding that says why');
  return { ok: false, findings };
}

/**
 * Every file of a build pack, in memory, or the findings that stand against it. Pure: the same text and version give
 * the same bytes, wherever and whenever. The emitters are loaded once the design is known to be sound.
 */
export async function makePack(input: MakePackInput): Promise<MakePackResult> {
  const sound = checkDesign(input);
  if (!sound.ok) return sound;
  const prediction = await input.predictionOf?.(sound);
  const sensitivities = await input.sensitivitiesOf?.(sound);
  const { emitters, letterFindings, writePlan } = await import('./emitters.ts');
  const letters = placeFindings(letterFindings(sound), input.designText);
  const checked = { ...sound, findings: [...sound.findings, ...letters] };
  const { design, estimate } = checked;
  const files = async (record: PredictionRecord) => {
    const { predictionFiles } = await import('./prediction/prediction-files.ts');
    return predictionFiles({ design, record, toolVersion: input.toolVersion, estimate: estimate.response });
  };
  const predicted: Predicted | undefined = prediction && { record: prediction, files: await files(prediction) };
  return packOf({ input, checked, stages: { ...realStages, emit: emitters, writePlan }, predicted, sensitivities });
}

/** The same by given stages. */
export function makePackBy(stages: Stages, input: MakePackInput): MakePackResult {
  const checked = checkDesign(input, stages);
  return checked.ok ? packOf({ input, checked, stages, predicted: undefined, sensitivities: undefined }) : checked;
}

interface Predicted {
  readonly record: PredictionRecord;
  readonly files: readonly EmittedFile[];
}

interface Sound {
  readonly predicted: Predicted | undefined;
  readonly sensitivities: SensitivityRecord | undefined;
  readonly input: MakePackInput;
  readonly checked: SoundDesign;
  readonly stages: Stages;
}

function packOf(sound: Sound): MakePackResult {
  const { input, checked, stages, predicted, sensitivities } = sound;
  const { design, assembly, findings } = checked;
  const emitted = stages.emit.map((emit) => emit(assembly, findings));
  const drawn = [...emitted.flatMap((one) => one.files), ...(predicted?.files ?? []), ...sensitivityFiles(sound)];
  const told = summarise({ ...sound, drawn, notes: emitted.flatMap((one) => one.notes) });
  const plan = stages.writePlan(checked, told, { prediction: predicted?.record.prediction, sensitivities });
  const summary: Summary = {
    ...told,
    files: [...plan.map(({ path, kind, part }) => ({ path, kind, part })), ...told.files],
  };
  const files: PackFile[] = [...drawn, ...plan, ...writtenFiles(summary, stages)];
  requireSoundPaths(files);
  const { name, revision } = design;
  const manifest = makeManifest({
    ...input,
    name,
    revision,
    solutions: { prediction: predicted?.record, sensitivities },
    files,
  });
  const bytes = encode(`${JSON.stringify(manifest, null, 2)}\n`);
  const all = [...files, { path: MANIFEST_PATH, kind: 'manifest', part: undefined, bytes }];
  return { ok: true, findings, design, manifest, files: all };
}

function sensitivityFiles({ input, checked, sensitivities }: Sound): readonly EmittedFile[] {
  if (sensitivities === undefined) return [];
  const { name, revision } = checked.design;
  const beside = { tool: { name: 'sheetwave', version: input.toolVersion }, design: { name, revision } };
  const bytes = encode(sensitivitiesText(sensitivities, beside));
  return [{ path: SENSITIVITIES_PATH, kind: 'sensitivities-json', part: undefined, bytes }];
}

interface Ingredients extends Sound {
  readonly drawn: readonly EmittedFile[];
  readonly notes: readonly string[];
}

function summarise({ input, checked, stages, predicted, drawn, notes }: Ingredients): Summary {
  const { design, assembly, estimate, findings } = checked;
  const parts = partLines({ parts: assembly.parts, files: drawn, massKg: stages.massKg });
  const sheets = sheetLines(checked.sheets);
  const shopping = shoppingList(assembly, sheets);
  return {
    design,
    toolVersion: input.toolVersion,
    reflectorRule: assembly.reflectorRule,
    parts,
    shopping,
    sheets,
    costs: costsOf({ design, parts: assembly.parts, lines: parts, shopping }),
    dimensions: stages.measure(assembly),
    estimate,
    predictionReport: predicted && predictionReport(design, predicted.record.prediction),
    holes: holeCounts(assembly.parts),
    bends: bendList(assembly.parts),
    findings,
    notes,
    cautions: cautions(assembly),
    files: [...drawn, PARTS_CSV].map(({ path, kind, part }) => ({ path, kind, part })),
  };
}

const PARTS_CSV = { path: 'parts.csv', kind: 'parts-csv', part: undefined } as const;

function writtenFiles(summary: Summary, stages: Stages): PackFile[] {
  const page = { kind: 'summary', part: undefined };
  return [
    { ...PARTS_CSV, bytes: encode(partsCsv([...summary.parts, ...summary.shopping], summary.costs)) },
    { ...page, path: 'summary.json', bytes: encode(summaryJson(summary)) },
    { ...page, path: 'summary.md', bytes: encode(summaryPage(summary, stages.findingText)) },
  ];
}

/** Paths come from the emitters: one that is unsafe or not alone, even where case does not count, is our own mistake. */
function requireSoundPaths(files: readonly PackFile[]): void {
  const seen = new Set<string>();
  for (const { path } of files) {
    if (!isSafePath(path)) throw new Error(`not a safe path for a file of the pack: ${JSON.stringify(path)}`);
    if (seen.has(path.toLowerCase())) throw new Error(`two files of the pack share one path: ${path}`);
    seen.add(path.toLowerCase());
  }
}

const encode = (text: string) => new TextEncoder().encode(text);
