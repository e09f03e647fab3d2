import { type Code, sized, unsigned, vector } from './code.ts';
import { i32 } from './instructions.ts';

const TYPE_CODES = { i32: 0x7f, f32: 0x7d, v128: 0x7b } as const;
export type ValueType = keyof typeof TYPE_CODES;

export const typeCode = (type: ValueType): number => TYPE_CODES[type];

/** One local variable of a function that is being written. */
export class Local {
  private readonly index: number;
  readonly get: Code;

  constructor(index: number) {
    this.index = index;
    this.get = [0x20, unsigned(index)];
  }

  set(value: Code): Code {
    return [value, 0x21, unsigned(this.index)];
  }

  /** Sets, and leaves the value on the stack. */
  tee(value: Code): Code {
    return [value, 0x22, unsigned(this.index)];
  }

  /** Adds a constant to an integer. */
  increase(by: number): Code {
    return this.set(i32.add(this.get, i32.of(by)));
  }
}

/** Collects the locals of one function while its code is put together. Parameters are integers. */
export class FunctionWriter {
  private readonly locals: ValueType[] = [];
  private readonly parameterCount: number;

  constructor(parameterCount: number) {
    this.parameterCount = parameterCount;
  }

  parameter(index: number): Local {
    return new Local(index);
  }

  local(type: ValueType): Local {
    this.locals.push(type);
    return new Local(this.parameterCount + this.locals.length - 1);
  }

  /** An entry of the code section. */
  finish(body: Code): FunctionBody {
    const locals = vector(this.locals.map((type) => [1, typeCode(type)]));
    return { parameterCount: this.parameterCount, entry: sized([locals, body, 0x0b]) };
  }
}

export interface FunctionBody {
  readonly parameterCount: number;
  readonly entry: Code;
}
