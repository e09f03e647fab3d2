import { writeTouchstone } from '@sheetwave/bench';
import type { Design } from '@sheetwave/design';
import { figureSvg } from '@sheetwave/emit-svg';
import type { EmittedFile } from '@sheetwave/geometry';
import { predictionFigures } from '@sheetwave/plots';
import { type PredictionReport, predictionReport } from '@sheetwave/predict';
import type { Response } from '@sheetwave/rf';
import { numbersBeside } from './numbers-beside.ts';
import { PREDICTION_PATH } from './prediction-path.ts';
import { type PredictionRecord, recordText } from './prediction-record.ts';

export interface PredictionFilesInput {
  readonly design: Design;
  readonly record: PredictionRecord;
  readonly toolVersion: string;
  /** The closed forms' response, where they have one: drawn beside the prediction. */
  readonly estimate: Response | undefined;
}

/** The files of a prediction: S parameters, diagrams, and all numbers. Pure: the same record gives the same bytes. */
export function predictionFiles(input: PredictionFilesInput): readonly EmittedFile[] {
  const { design, record, estimate } = input;
  const { prediction } = record;
  const report = predictionReport(design, prediction);
  const { lowHz, highHz } = design.band;
  const figures = predictionFigures(prediction, {
    lowHz,
    highHz,
    vswr: design.targets.vswr,
    ...(design.targets.gainDbi !== undefined && { gainDbi: design.targets.gainDbi }),
    ...(estimate !== undefined &&
      prediction.feed === 'as-built' && { beside: { name: 'estimated', response: estimate } }),
  });
  return [
    touchstoneFile(record, report),
    ...figures.map(({ name, figure }) => fileOf(`prediction/${name}.svg`, 'plot-svg', figureSvg(figure))),
    fileOf(PREDICTION_PATH, 'prediction-json', encode(recordText(record, numbersBeside(input, report)))),
  ];
}

/** `antenna.s1p`: the number in the ending is that of the ports (Touchstone File Format Specification 2.0, file names). */
function touchstoneFile({ prediction }: PredictionRecord, report: PredictionReport): EmittedFile {
  const { response, ports } = prediction;
  const comments = [
    report.heading,
    response.method,
    ...report.trust,
    ...ports.map(({ name }, index) => `Port ${index + 1}: ${name}`),
  ];
  const text = writeTouchstone(response, { comments });
  return fileOf(`prediction/antenna.s${ports.length}p`, 'touchstone', encode(text));
}

const fileOf = (path: string, kind: EmittedFile['kind'], bytes: Uint8Array): EmittedFile => ({
  path,
  kind,
  part: undefined,
  bytes,
});

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
