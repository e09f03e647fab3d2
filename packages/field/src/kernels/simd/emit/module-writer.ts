import { type Code, flatten, sized, text, unsigned, vector } from './code.ts';
import { type FunctionBody, typeCode } from './function-writer.ts';

export interface ImportedMemory {
  readonly pages: number;
  readonly isShared: boolean;
}

/** A module of functions that take integers and return at most one, over one memory imported as `env.memory`. */
export class ModuleWriter {
  private readonly functions: FunctionBody[] = [];
  private readonly resultCounts: number[] = [];
  private readonly exports: Code[] = [];
  private readonly memory: ImportedMemory;

  constructor(memory: ImportedMemory) {
    this.memory = memory;
  }

  /** Adds a function and gives its index, for calls. */
  add(body: FunctionBody, { exportAs, hasResult = false }: { exportAs?: string; hasResult?: boolean } = {}): number {
    const index = this.functions.length;
    this.functions.push(body);
    this.resultCounts.push(hasResult ? 1 : 0);
    if (exportAs !== undefined) this.exports.push([text(exportAs), 0x00, unsigned(index)]);
    return index;
  }

  bytes(): Uint8Array {
    const { pages, isShared } = this.memory;
    const integers = (count: number) => vector(Array.from({ length: count }, () => typeCode('i32')));
    const types = this.functions.map((one, index) => [
      0x60,
      integers(one.parameterCount),
      integers(this.resultCounts[index] ?? 0),
    ]);
    const limits = [isShared ? 0x03 : 0x01, unsigned(pages), unsigned(pages)];
    return Uint8Array.from(
      flatten([
        [0x00, 0x61, 0x73, 0x6d, 1, 0, 0, 0],
        [1, sized(vector(types))],
        [2, sized(vector([[text('env'), text('memory'), 0x02, limits]]))],
        [3, sized(vector(this.functions.map((_, index) => unsigned(index))))],
        [7, sized(vector(this.exports))],
        [10, sized(vector(this.functions.map((one) => one.entry)))],
      ]),
    );
  }
}
