import type { TouchstoneOptions, TouchstoneReading } from './touchstone-file.ts';
import { createTouchstoneReader } from './touchstone-reader.ts';

/** Reads a whole Touchstone 1.1 or 2.0 file. What is wrong comes as findings with their lines. */
export function readTouchstone(content: string | Uint8Array, options: TouchstoneOptions = {}): TouchstoneReading {
  const reader = createTouchstoneReader(options);
  reader.push(content);
  return reader.end();
}
