/**
 * What is wrong, or worth knowing, about an input: data, worded by `renderFinding`.
 * `path` is the field as a person wrote it (`layer[1].length`), '' for the whole file.
 */
export interface Finding {
  /** Stable word for programs, such as `unknown-key` or `missing-unit`. */
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'note';
  readonly path: string;
  /** The value found, as it stands in the file; '' when there is none. */
  readonly value: string;
  /** What is the matter, or what would be allowed, as a clause: `a length with its unit`. */
  readonly allowed: string;
  /** What to do about it, as an imperative: `write "6 mm"`. */
  readonly remedy: string;
  /** Place in the design file, 1-based, when known. */
  readonly line?: number;
  readonly column?: number;
}
