/** A metal patch of zero thickness on layers over an endless plane. Lengths in mm, as published tables give them. */
export type PatchOutline =
  | { readonly kind: 'rectangle'; readonly lengthMm: number; readonly widthMm: number }
  | { readonly kind: 'disc'; readonly radiusMm: number }
  /** Equilateral. */
  | { readonly kind: 'triangle'; readonly sideMm: number };

/** One layer between the plane and the patch, from below. */
export interface Layer {
  readonly heightMm: number;
  /** Relative, 1 or above. */
  readonly permittivity: number;
}

/** TM mode by its two numbers; of a rectangle always 1, 0: half a wave along the length. */
export type ModeNumbers = readonly [m: number, n: number];

/** One measured patch of a published table. */
export interface PublishedRow {
  readonly caseId: string;
  /** Which measured set it belongs to: the leading letters of the case (`RP-K`, `CP`), for averages. */
  readonly set: string;
  readonly outline: PatchOutline;
  readonly layers: readonly Layer[];
  readonly mode: ModeNumbers;
  readonly measuredHz: number;
  /** As the table states them; empty when it does not. */
  readonly confidence: string;
  readonly memoryStrength: string;
  readonly source: string;
}

/** A row that cannot be used. */
export interface RowProblem {
  /** 1 is the line of the column names. */
  readonly line: number;
  readonly column: string;
  readonly value: string;
  readonly allowed: string;
}

export const describeProblem = (file: string, { line, column, value, allowed }: RowProblem): string =>
  `${file}:${line}: ${column}: "${value}": allowed is ${allowed}; the row is skipped`;

export const totalHeightMm = ({ layers }: Pick<PublishedRow, 'layers'>): number =>
  layers.reduce((sum, { heightMm }) => sum + heightMm, 0);
