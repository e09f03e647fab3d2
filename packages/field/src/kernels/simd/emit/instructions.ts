import { type Code, float32, signed, unsigned } from './code.ts';

/**
 * The instructions that the kernels use, each written as a function of its operands, so that code reads as expressions.
 * Opcodes: WebAssembly Core Specification 2.0, 5.4; threads proposal (0xfe ...); relaxed SIMD proposal (0xfd 0x105 ...).
 */

const binary =
  (...opcode: readonly number[]) =>
  (a: Code, b: Code): Code => [a, b, opcode];

const SIMD = 0xfd;
const ATOMIC = 0xfe;
/** Alignments are hints, as powers of two. */
const ALIGN_4 = 2;

export const i32 = {
  of: (value: number): Code => [0x41, signed(value)],
  add: binary(0x6a),
  sub: binary(0x6b),
  mul: binary(0x6c),
  divUnsigned: binary(0x6e),
  remUnsigned: binary(0x70),
  and: binary(0x71),
  or: binary(0x72),
  equal: binary(0x46),
  notEqual: binary(0x47),
  lessSigned: binary(0x48),
  lessUnsigned: binary(0x49),
  greaterSigned: binary(0x4a),
  lessOrEqualSigned: binary(0x4c),
  greaterOrEqualSigned: binary(0x4e),
  isZero: (a: Code): Code => [a, 0x45],
  load: (address: Code, offset = 0): Code => [address, 0x28, ALIGN_4, unsigned(offset)],
  store: (address: Code, value: Code, offset = 0): Code => [address, value, 0x36, ALIGN_4, unsigned(offset)],
  /** The first value where the condition holds, else the second. */
  select: (first: Code, second: Code, condition: Code): Code => [first, second, condition, 0x1b],
};

export const min = (a: Code, b: Code): Code => i32.select(a, b, i32.lessSigned(a, b));
export const max = (a: Code, b: Code): Code => i32.select(a, b, i32.greaterSigned(a, b));

export const f32 = {
  of: (value: number): Code => [0x43, float32(value)],
  load: (address: Code, offset = 0): Code => [address, 0x2a, ALIGN_4, unsigned(offset)],
  store: (address: Code, value: Code, offset = 0): Code => [address, value, 0x38, ALIGN_4, unsigned(offset)],
  add: binary(0x92),
  sub: binary(0x93),
  mul: binary(0x94),
};

/** Four 32-bit numbers at once. */
export const f32x4 = {
  load: (address: Code, offset = 0): Code => [address, SIMD, 0x00, ALIGN_4, unsigned(offset)],
  loadSplat: (address: Code, offset = 0): Code => [address, SIMD, 0x09, ALIGN_4, unsigned(offset)],
  store: (address: Code, value: Code, offset = 0): Code => [address, value, SIMD, 0x0b, ALIGN_4, unsigned(offset)],
  splat: (value: Code): Code => [value, SIMD, 0x13],
  add: binary(SIMD, 0xe4, 0x01),
  sub: binary(SIMD, 0xe5, 0x01),
  mul: binary(SIMD, 0xe6, 0x01),
  /** a * b + c, rounded once or twice as the host likes. */
  relaxedMultiplyAdd: (a: Code, b: Code, c: Code): Code => [a, b, c, SIMD, 0x85, 0x02],
  /** c - a * b, rounded once or twice as the host likes. */
  relaxedNegativeMultiplyAdd: (a: Code, b: Code, c: Code): Code => [a, b, c, SIMD, 0x86, 0x02],
};

/** Sequentially consistent 32-bit operations on memory. */
export const atomic = {
  load: (address: Code, offset = 0): Code => [address, ATOMIC, 0x10, ALIGN_4, unsigned(offset)],
  store: (address: Code, value: Code, offset = 0): Code => [address, value, ATOMIC, 0x17, ALIGN_4, unsigned(offset)],
  /** Adds, and gives the value before. */
  add: (address: Code, value: Code, offset = 0): Code => [address, value, ATOMIC, 0x1e, ALIGN_4, unsigned(offset)],
  /** Sleeps while the word has the expected value, at most so many nanoseconds; leaves 0 woken, 1 other value, 2 late. */
  wait: (address: Code, expected: Code, { offset, nanoseconds }: { offset: number; nanoseconds: number }): Code => [
    address,
    expected,
    [0x42, signed(nanoseconds)],
    ATOMIC,
    0x01,
    ALIGN_4,
    unsigned(offset),
  ],
  /** Wakes all that sleep on the word; leaves their count. */
  wakeAll: (address: Code, offset = 0): Code => [address, i32.of(-1), ATOMIC, 0x00, ALIGN_4, unsigned(offset)],
};

const EMPTY = 0x40;
const END = 0x0b;

export const when = (condition: Code, then: Code, otherwise?: Code): Code =>
  otherwise === undefined ? [condition, 0x04, EMPTY, then, END] : [condition, 0x04, EMPTY, then, 0x05, otherwise, END];

/** Runs the body, then again as long as the condition holds. The body must not branch out. */
export const doWhile = (body: Code, condition: Code): Code => [0x03, EMPTY, body, condition, 0x0d, 0, END];

/** Runs the body as long as the condition holds before it. */
export const whileLoop = (condition: Code, body: Code): Code => when(condition, doWhile(body, condition));

export const drop = (value: Code): Code => [value, 0x1a];
export const leave: Code = 0x0f;
export const trap: Code = 0x00;
export const call = (index: number, ...operands: readonly Code[]): Code => [operands, 0x10, unsigned(index)];
