import { over, type Pair, plus, scaled, times } from './complex-pairs.ts';

/**
 * A witness from the frequency domain for thin wires: parallel straight dipoles of equal length, with currents of overlapping
 * sine pieces and Galerkin's test (J. H. Richmond and N. H. Geary, IEEE Trans. AP-23 (1975) 676; from memory). The field of a
 * piece is exact (C. A. Balanis, Antenna Theory, eq. 8-58 to 8-61): of a current sin k(d - |z|) over -d to d,
 * Ez = -30j (e^(-jkR1)/R1 + e^(-jkR2)/R2 - 2 cos kd e^(-jkR0)/R0). The current lies on the axis, the test on the surface.
 */
export interface Dipole {
  /** m. */
  readonly length: number;
  readonly radius: number;
}

/** Pieces, odd, so that one sits in the middle. */
const PIECES = 31;
/** Points of the trapezoid rule over one piece: the field varies over the radius. */
const POINTS = 400;

const wave = (k: number, r: number): Pair => [Math.cos(k * r) / r, -Math.sin(k * r) / r];

/** Reaction between two pieces of half length d, centres `shift` apart along the wire and `beside` across, ohm. */
function reaction(k: number, d: number, { shift, beside }: { shift: number; beside: number }): Pair {
  let sum: Pair = [0, 0];
  const step = (2 * d) / POINTS;
  for (let n = 1; n < POINTS; n++) {
    const z = -d + n * step;
    const at = shift + z;
    const ends = plus(wave(k, Math.hypot(beside, at - d)), wave(k, Math.hypot(beside, at + d)));
    const field = plus(ends, scaled(wave(k, Math.hypot(beside, at)), -2 * Math.cos(k * d)));
    sum = plus(sum, scaled(field, Math.sin(k * (d - Math.abs(z))) * step));
  }
  return scaled(times([0, 30], sum), 1 / Math.sin(k * d) ** 2);
}

/** Input impedance (ohm) of a dipole fed in its middle beside an equal one at `spacing` (m) whose current is `sign` times its own; 0: alone. */
export function dipoleImpedance({ length, radius }: Dipole, k: number, pair: { spacing: number; sign: number }): Pair {
  const d = length / (PIECES + 1);
  const reactions = Array.from({ length: PIECES }, (_, n) => {
    const own = reaction(k, d, { shift: n * d, beside: radius });
    return pair.sign === 0 ? own : plus(own, scaled(reaction(k, d, { shift: n * d, beside: pair.spacing }), pair.sign));
  });
  const matrix = Array.from({ length: PIECES }, (_, m) =>
    Array.from({ length: PIECES }, (_, n) => reactions[Math.abs(m - n)] as Pair),
  );
  const middle = (PIECES - 1) / 2;
  return over([1, 0], solve(matrix, middle));
}

/** The current of piece `driven` for 1 V there: by elimination, with the driven row last. */
function solve(matrix: Pair[][], driven: number): Pair {
  const order = [...matrix.keys()].filter((n) => n !== driven).concat(driven);
  const rows = order.map((m) => order.map((n) => matrix[m]?.[n] as Pair));
  const last = rows.length - 1;
  for (let i = 0; i < last; i++) {
    const pivot = rows[i] as Pair[];
    for (let m = i + 1; m <= last; m++) {
      const row = rows[m] as Pair[];
      const factor = over(row[i] as Pair, pivot[i] as Pair);
      for (let c = i; c <= last; c++) row[c] = plus(row[c] as Pair, scaled(times(factor, pivot[c] as Pair), -1));
    }
  }
  return over([1, 0], rows[last]?.[last] as Pair);
}
