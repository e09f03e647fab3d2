import { createHash } from 'node:crypto';

/** SHA-256 (FIPS 180-4) of some bytes, as 64 lower-case hexadecimal digits. */
export function sha256Hex(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}
