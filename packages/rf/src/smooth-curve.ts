/**
 * A smooth curve through points that rises and falls only where they do: cubic pieces whose slopes are weighted harmonic means of those of
 * the chords beside a point, and level at a turning point (F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300; at the
 * ends the three-point slope, kept from overshooting, as C. Moler, Numerical Computing with MATLAB, section 3.4). Outside it stays level. Throws RangeError
 * for places that do not rise, for lists of different length and for none.
 */
export function smoothCurve(x: readonly number[], y: readonly number[]): (at: number) => number {
  if (x.length === 0 || x.length !== y.length)
    throw new RangeError(`a curve needs as many values as places, at least one; got ${y.length} and ${x.length}.`);
  const points = x.map((at, i) => ({ at, value: y[i] ?? Number.NaN }));
  const pieces = points.slice(1).map((to, i): Piece => {
    const from = points[i] ?? to;
    const width = to.at - from.at;
    if (!(width > 0)) throw new RangeError(`the places of a curve must rise; ${to.at} follows ${from.at}.`);
    return { from, to, width, chord: (to.value - from.value) / width };
  });
  const slopes = points.map((_, i) => slopeAt(pieces, i));
  const [first, last] = [points[0], points.at(-1)];
  return (at) => {
    if (first === undefined || last === undefined || at <= first.at) return first?.value ?? Number.NaN;
    if (at >= last.at) return last.value;
    const index = pieces.findIndex(({ to }) => at <= to.at);
    const piece = pieces[index];
    return piece === undefined ? last.value : along(piece, at, [slopes[index] ?? 0, slopes[index + 1] ?? 0]);
  };
}

interface Place {
  readonly at: number;
  readonly value: number;
}

interface Piece {
  readonly from: Place;
  readonly to: Place;
  readonly width: number;
  readonly chord: number;
}

function slopeAt(pieces: readonly Piece[], index: number): number {
  const [before, after] = [pieces[index - 1], pieces[index]];
  if (before === undefined) return endSlope(after, pieces[index + 1]);
  if (after === undefined) return endSlope(before, pieces[index - 2]);
  if (before.chord * after.chord <= 0) return 0;
  const [a, b] = [2 * after.width + before.width, after.width + 2 * before.width];
  return (a + b) / (a / before.chord + b / after.chord);
}

/** At an end, from the piece there and the one beside it. */
function endSlope(own: Piece | undefined, next: Piece | undefined): number {
  if (own === undefined) return 0;
  if (next === undefined) return own.chord;
  const slope = ((2 * own.width + next.width) * own.chord - own.width * next.chord) / (own.width + next.width);
  if (slope * own.chord <= 0) return 0;
  return own.chord * next.chord < 0 && Math.abs(slope) > 3 * Math.abs(own.chord) ? 3 * own.chord : slope;
}

/** The cubic with these values and slopes at its ends. */
function along({ from, to, width }: Piece, at: number, [left, right]: readonly [number, number]): number {
  const t = (at - from.at) / width;
  const [t2, t3] = [t * t, t * t * t];
  return (
    (2 * t3 - 3 * t2 + 1) * from.value +
    (t3 - 2 * t2 + t) * width * left +
    (3 * t2 - 2 * t3) * to.value +
    (t3 - t2) * width * right
  );
}
