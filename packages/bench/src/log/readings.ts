import {
  type Design,
  type Dimension,
  dimensionsOf,
  editDesignTexts,
  type Finding,
  formatLength,
  nearestWords,
  parseQuantity,
  type TextEdit,
  withDimensions,
} from '@sheetwave/design';

/** What the caliper read, by the path of the dimension, mm. */
export type CaliperReadings = Readonly<Record<string, number>>;

export type CaliperResult =
  | { readonly ok: true; readonly readings: CaliperReadings; readonly findings: readonly Finding[] }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/** A reading that differs by more than this share of the nominal size is rather a slip of the pen. */
const LIKELY = 0.2;

const finding = (
  severity: Finding['severity'],
  code: string,
  path: string,
  words: Pick<Finding, 'value' | 'allowed' | 'remedy'>,
): Finding => ({ code, severity, path, ...words });

/** `layer[0].length` and `"22.1 mm"` as readings of a design. */
export function readReadings(design: Design, given: readonly (readonly [path: string, text: string])[]): CaliperResult {
  const known = dimensionsOf(design).filter(({ unit }) => unit === 'mm');
  const readings: Record<string, number> = {};
  const findings: Finding[] = [];
  for (const [path, text] of given) {
    const dimension = known.find((one) => one.path === path);
    if (dimension === undefined) findings.push(unknownPath(path, known));
    else if (Object.hasOwn(readings, path)) {
      findings.push(
        finding('error', 'reading-twice', path, {
          value: '',
          allowed: 'is given twice',
          remedy: 'give each dimension once',
        }),
      );
    } else {
      const read = lengthOf(text);
      if (read === undefined)
        findings.push(
          finding('error', 'bad-reading', path, {
            value: text,
            allowed: 'a length above 0 mm',
            remedy: 'write it with its unit: "22.1 mm"',
          }),
        );
      else {
        readings[path] = read;
        findings.push(...unlikely(dimension, read));
      }
    }
  }
  const failed = findings.some(({ severity }) => severity === 'error');
  return failed ? { ok: false, findings } : { ok: true, readings, findings };
}

function unknownPath(path: string, known: readonly Dimension[]): Finding {
  const paths = known.map((one) => one.path);
  const near = nearestWords(path, paths, 1)[0];
  const remedy =
    near === undefined
      ? `its dimensions are ${paths.join(', ')}`
      : `did you mean ${near}? Its dimensions are ${paths.join(', ')}`;
  return finding('error', 'unknown-dimension', '', {
    value: path,
    allowed: 'is not a dimension of this design',
    remedy,
  });
}

function lengthOf(text: string): number | undefined {
  const read = parseQuantity(text, 'length');
  return read.ok && read.value > 0 ? read.value : undefined;
}

function unlikely({ nominal, path }: Dimension, read: number): readonly Finding[] {
  if (Math.abs(read / nominal - 1) <= LIKELY) return [];
  return [
    finding('warning', 'unlikely-reading', path, {
      value: formatLength(read),
      allowed: `is far from the ${formatLength(nominal)} of the design`,
      remedy: 'see whether the right thing was measured',
    }),
  ];
}

/** The design as it was built: nominal sizes replaced by what the caliper read. Throws RangeError for a path that it does not have. */
export const asBuilt = (design: Design, readings: CaliperReadings): Design => withDimensions(design, readings);

/** The text of the design with the readings put in, where they stand as lengths there; those of bought parts (a spacer, a sheet) do not, and are `kept`. */
export interface AsBuiltText {
  readonly edit: TextEdit;
  readonly put: readonly string[];
  readonly kept: readonly string[];
}

export function asBuiltText(design: Design, text: string, readings: CaliperReadings): AsBuiltText {
  const bought = new Set(
    dimensionsOf(design)
      .filter(({ setBy, path }) => setBy === 'stock' || (setBy === 'spacer' && path.endsWith('.spacer')))
      .map(({ path }) => path),
  );
  const put = Object.keys(readings).filter((path) => !bought.has(path));
  const changes = Object.fromEntries(put.map((path) => [path, formatLength(readings[path] ?? Number.NaN)]));
  return { edit: editDesignTexts(text, changes), put, kept: Object.keys(readings).filter((path) => bought.has(path)) };
}
