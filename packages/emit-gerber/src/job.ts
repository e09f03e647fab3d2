import type { BoardPart } from '@sheetwave/geometry';
import { type Identity, SOFTWARE } from './attributes.ts';
import type { Frame } from './frame.ts';

/** One layer file as the job file lists it. */
export interface JobEntry {
  /** Relative to the job file, with `/`. */
  readonly path: string;
  readonly fileFunction: string;
  readonly polarity: 'Positive' | 'Negative';
}

/**
 * The Gerber job file: what the set is, in JSON (Gerber Job Format Specification, 2020.08, from memory: Header,
 * GeneralSpecs, FilesAttributes and MaterialStackup). Sizes in mm.
 */
export function jobBytes(
  board: BoardPart,
  files: readonly JobEntry[],
  context: { frame: Frame; identity: Identity },
): Uint8Array {
  const { frame, identity } = context;
  const job = {
    Header: {
      GenerationSoftware: {
        Vendor: SOFTWARE.vendor,
        Application: SOFTWARE.application,
        Version: SOFTWARE.version,
      },
      ...(identity.created === undefined ? {} : { CreationDate: identity.created }),
    },
    GeneralSpecs: {
      ProjectId: { Name: identity.project.name, GUID: identity.project.guid, Revision: identity.project.revision },
      Size: { X: micro(frame.widthMm), Y: micro(frame.heightMm) },
      LayerNumber: files.filter(({ fileFunction }) => fileFunction.startsWith('Copper,')).length,
      BoardThickness: micro(boardThicknessMm(board)),
    },
    FilesAttributes: files.map(({ path, fileFunction, polarity }) => ({
      Path: path,
      FileFunction: fileFunction,
      FilePolarity: polarity,
    })),
    MaterialStackup: stackup(board, new Set(files.map(({ fileFunction }) => fileFunction))),
  };
  return new TextEncoder().encode(`${JSON.stringify(job, null, 2)}\n`);
}

/** Dielectric and the copper that is left on it. */
function boardThicknessMm({ laminate, copper }: BoardPart): number {
  const sides = [copper.top, copper.bottom].filter((pieces) => pieces.length > 0).length;
  return laminate.thicknessMm + sides * laminate.copperMm;
}

/** The layers of the board from the top down. */
function stackup(board: BoardPart, present: ReadonlySet<string>): readonly object[] {
  const { laminate } = board;
  const copper = (name: string) => ({ Type: 'Copper', Thickness: micro(laminate.copperMm), Name: name });
  const has = (fileFunction: string, layer: object) => (present.has(fileFunction) ? [layer] : []);
  return [
    ...has('Legend,Top', { Type: 'Legend', Name: 'Top legend' }),
    ...has('Soldermask,Top', { Type: 'SolderMask', Name: 'Top mask' }),
    ...has('Copper,L1,Top', copper('Top copper')),
    {
      Type: 'Dielectric',
      Thickness: micro(laminate.thicknessMm),
      Material: laminate.label,
      DielectricConstant: laminate.permittivity,
      LossTangent: laminate.lossTangent,
      Name: 'Laminate',
    },
    ...has('Copper,L2,Bot', copper('Bottom copper')),
    ...has('Soldermask,Bot', { Type: 'SolderMask', Name: 'Bottom mask' }),
  ];
}

const micro = (mm: number): number => Math.round(mm * 1e6) / 1e6;
