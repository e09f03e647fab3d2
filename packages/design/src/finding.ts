/**
 * What is wrong, or worth knowing, about an input: data, worded by `renderFinding`.
 * `path` is the field (`layer[0].length`: indices count from 0), '' for the whole file; in words `layer 1 length`.
 */
export interface Finding {
  /** Stable word for programs, such as `unknown-key` or `missing-unit`. */
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'note';
  readonly path: string;
  /** The value found, as it stands in the file; '' when there is none. */
  readonly value: string;
  /** What would be allowed, beginning with an article (`a length with its unit`), or what is the matter (`is outside 1 mm to 5 mm`). */
  readonly allowed: string;
  /** What to do about it, as an imperative: `write "6 mm"`. */
  readonly remedy: string;
  /** Place in the design file, 1-based, when known. */
  readonly line?: number;
  readonly column?: number;
  /** Where on the antenna it is, in antenna coordinates (mm; z from the front face of the reflector), when it has a place. */
  readonly at?: { readonly x: number; readonly y: number; readonly z: number };
  /** Ids of the parts it is about, the one to look at first. */
  readonly parts?: readonly string[];
}
