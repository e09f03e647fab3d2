import { createHash } from 'node:crypto';

/** MD5 in lower-case hexadecimal: what the .MD5 attribute asks for; a check against damage, not a protection. */
export function md5Hex(text: string): string {
  return createHash('md5').update(text, 'ascii').digest('hex');
}

/**
 * An identifier in the shape of a random GUID (RFC 4122, 4.4: version nibble 4, variant bits 10) whose other bits are the
 * SHA-256 of `content`: the same content always has the same one.
 */
export function guidOf(content: string): string {
  const hex = createHash('sha256').update(content, 'utf8').digest('hex');
  const variant = ((Number.parseInt(hex.charAt(16), 16) & 0x3) | 0x8).toString(16);
  return [
    hex.slice(0, 8),
    hex.slice(8, 12),
    `4${hex.slice(13, 16)}`,
    `${variant}${hex.slice(17, 20)}`,
    hex.slice(20, 32),
  ].join('-');
}
