import type { Layout } from '../../kernel.ts';
import { innerSpan, type Span, usedElements } from './air-rows.ts';
import type { Code } from './emit/code.ts';
import type { Local } from './emit/function-writer.ts';
import { doWhile, i32 } from './emit/instructions.ts';
import { type KernelOptions, type RowLocals, type RowVariant, rowBytes, VECTOR, VectorWriter } from './row-terms.ts';

export interface RowToWrite {
  readonly layout: Layout;
  readonly variant: RowVariant;
  readonly options: KernelOptions;
  readonly locals: RowLocals;
  /** A local for the place where a loop ends. */
  readonly rowEnd: Local;
}

/** A part of a row whose vectors are all written by the same code. */
interface Segment extends Span {
  readonly inX: boolean;
  /** Without coefficients, because they are 1. */
  readonly isAir: boolean;
}

/** Code for a row from its start to its last node. The padding is left as it is. */
export function segments(row: RowToWrite, isAir: boolean): Code {
  const writer = new RowWriter(row);
  return [segmentsOf(row.layout, isAir).map((segment) => writer.write(segment)), writer.finish()];
}

/** The slabs of x and what lies between, cut again where the vectors at the walls end. */
function segmentsOf(layout: Layout, isAir: boolean): Segment[] {
  const used = usedElements(layout);
  const inner = innerSpan(layout);
  const lowEnd = Math.min(layout.slabs.x.lowEnd, used);
  const highStart = Math.min(layout.slabs.x.highStart, used);
  const cuts = [...new Set([0, lowEnd, highStart, used, ...(isAir ? [inner.from, inner.to] : [])])].sort(
    (a, b) => a - b,
  );
  return cuts.slice(1).map((to, index) => {
    const from = cuts[index] as number;
    return {
      from,
      to,
      inX: to <= lowEnd || from >= highStart,
      isAir: isAir && from >= inner.from && to <= inner.to,
    };
  });
}

/** Vectors in one round of a loop. */
const UNROLL = 2;

/**
 * Writes a row piece by piece. Only the middle is a loop; the slabs of x and the vectors at the walls are short, and are
 * written out with the distance from the pointers in their addresses. The pointers are moved when a loop needs it.
 */
class RowWriter {
  private readonly row: RowToWrite;
  /** Bytes by which the pointers lag behind. */
  private lag = 0;
  /** Bytes of psi of the x axis that were passed. */
  private psiX = 0;

  constructor(row: RowToWrite) {
    this.row = row;
  }

  write(segment: Segment): Code {
    const total = (segment.to - segment.from) / 4;
    const rounds = segment.inX ? 0 : Math.floor(total / UNROLL);
    return [
      rounds > 1 ? this.loop(segment, rounds) : this.straight(segment, rounds * UNROLL),
      this.straight(segment, total - rounds * UNROLL),
    ];
  }

  /** At the end of a row: the pointers that are not set anew go on to the start of the next one. */
  finish(): Code {
    const { layout, locals, variant } = this.row;
    const rest = this.lag + rowBytes(layout) - 4 * usedElements(layout);
    return [locals.place.increase(rest), variant.inZ ? locals.psi.z.increase(rest) : []];
  }

  private straight(segment: Segment, count: number): Code {
    const vectors = this.vectors(segment);
    return Array.from({ length: count }, () => {
      const code = vectors.write(this.lag, this.psiX);
      this.lag += VECTOR;
      if (segment.inX) this.psiX += VECTOR;
      return code;
    });
  }

  private loop(segment: Segment, rounds: number): Code {
    const { locals, rowEnd } = this.row;
    const vectors = this.vectors(segment);
    const moved = this.lag;
    this.lag = 0;
    const passed = segment.isAir ? rounds * UNROLL * VECTOR : 0;
    return [
      this.pointers().map((pointer) => pointer.increase(moved)),
      rowEnd.set(i32.add(locals.place.get, i32.of(rounds * UNROLL * VECTOR))),
      doWhile(
        [
          Array.from({ length: UNROLL }, (_, index) => vectors.write(index * VECTOR, this.psiX)),
          this.pointers(segment.isAir).map((pointer) => pointer.increase(UNROLL * VECTOR)),
        ],
        i32.lessUnsigned(locals.place.get, rowEnd.get),
      ),
      locals.coefficients.map((pointer) => (passed > 0 ? pointer.increase(passed) : [])),
    ];
  }

  private vectors({ isAir, inX }: Segment): VectorWriter {
    const { variant } = this.row;
    const hasCoefficients = variant.hasCoefficients && !isAir;
    return new VectorWriter({ ...this.row, variant: { ...variant, hasCoefficients }, inX });
  }

  /** The pointers that move along the row; in a loop through air not those of the coefficients. */
  private pointers(isAir = false): Local[] {
    const { variant, locals } = this.row;
    return [
      locals.place,
      locals.along,
      ...(variant.inY ? [locals.psi.y] : []),
      ...(variant.inZ ? [locals.psi.z] : []),
      ...(variant.hasCoefficients && !isAir ? locals.coefficients : []),
    ];
  }
}
