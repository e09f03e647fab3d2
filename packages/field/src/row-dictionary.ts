/**
 * Stores equal coefficient rows once. Most rows of a scene are equal (vacuum, the same cut through the same metal), so
 * the coefficients of a whole grid fit a cache that per-edge arrays would not.
 */
export class RowDictionary {
  private readonly byHash = new Map<number, number[]>();
  private readonly rows: Float32Array[] = [];
  private readonly starts: number[] = [];
  /** Elements of all stored rows. */
  elements = 0;

  /** Number of this row: of an equal one stored before, or a new one. The row is copied. */
  add(row: Float32Array): number {
    const bits = new Uint32Array(row.buffer, row.byteOffset, row.length);
    const hash = hashOf(bits);
    const same = this.byHash.get(hash) ?? [];
    for (const id of same) if (equalBits(bits, this.rows[id])) return id;
    const id = this.rows.length;
    this.rows.push(row.slice());
    this.starts.push(this.elements);
    this.elements += Math.ceil(row.length / 16) * 16;
    this.byHash.set(hash, [...same, id]);
    return id;
  }

  get count(): number {
    return this.rows.length;
  }

  /** Element offset of a row within the pool. */
  start(id: number): number {
    const start = this.starts[id];
    if (start === undefined) throw new RangeError(`There is no row ${id}.`);
    return start;
  }

  /** Copies all rows into the pool that begins at this element. */
  write(memory: Float32Array, pool: number): void {
    this.rows.forEach((row, id) => {
      memory.set(row, pool + this.start(id));
    });
  }
}

/** FNV-1a over 32-bit words. */
function hashOf(words: Uint32Array): number {
  let hash = 0x811c9dc5;
  for (const word of words) hash = Math.imul(hash ^ word ^ (word >>> 15), 0x01000193);
  return hash >>> 0;
}

function equalBits(words: Uint32Array, row: Float32Array | undefined): boolean {
  if (row?.length !== words.length) return false;
  const other = new Uint32Array(row.buffer, row.byteOffset, row.length);
  for (let i = 0; i < words.length; i++) if (words[i] !== other[i]) return false;
  return true;
}
