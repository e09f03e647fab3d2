/**
 * WebAssembly code as nested lists of bytes, flattened once at the end.
 * Format: WebAssembly Core Specification 2.0, chapter 5 (binary format); integers are LEB128 (5.2.2).
 */
export type Code = number | readonly Code[];

/** An unsigned integer, LEB128. */
export function unsigned(value: number): Code {
  const bytes: number[] = [];
  let rest = value >>> 0;
  do {
    const low = rest & 0x7f;
    rest >>>= 7;
    bytes.push(rest === 0 ? low : low | 0x80);
  } while (rest !== 0);
  return bytes;
}

/** A signed 32-bit integer, LEB128. */
export function signed(value: number): Code {
  const bytes: number[] = [];
  let rest = value | 0;
  for (;;) {
    const low = rest & 0x7f;
    rest >>= 7;
    const isLast = (rest === 0 && (low & 0x40) === 0) || (rest === -1 && (low & 0x40) !== 0);
    bytes.push(isLast ? low : low | 0x80);
    if (isLast) return bytes;
  }
}

/** A list with its count in front. */
export const vector = (items: readonly Code[]): Code => [unsigned(items.length), items];

/** A block of bytes with its length in front. */
export function sized(content: Code): Code {
  const bytes = flatten(content);
  return [unsigned(bytes.length), bytes];
}

/** A name: UTF-8 with its length in front. */
export const text = (value: string): Code => sized([...new TextEncoder().encode(value)]);

/** The four bytes of a 32-bit number, lowest first. */
export const float32 = (value: number): Code => [...new Uint8Array(Float32Array.of(value).buffer)];

export function flatten(code: Code): number[] {
  const bytes: number[] = [];
  const visit = (one: Code): void => {
    if (typeof one === 'number') bytes.push(one);
    else for (const part of one) visit(part);
  };
  visit(code);
  return bytes;
}
