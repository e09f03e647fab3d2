import { attributeText, fileAttributes, type Identity } from './attributes.ts';
import { md5Hex } from './digest.ts';

export interface GerberFile {
  /** `Copper,L1,Top`. */
  readonly function: string;
  readonly polarity: 'Positive' | 'Negative';
  /** For people, one line each; kept to printable ASCII. */
  readonly comments: readonly string[];
  /** Aperture definitions and graphics, one command a line. */
  readonly body: readonly string[];
}

/**
 * The bytes of a Gerber X2 file: attributes, one format, one unit, the body, the checksum and the end.
 * Gerber Layer Format Specification, revision 2023.08.
 */
export function gerberBytes(file: GerberFile, identity: Identity): Uint8Array {
  const head = [
    ...fileAttributes(identity, file).map((attribute) => `%TF${attributeText(attribute)}*%`),
    ...file.comments.map((comment) => `G04 ${commentText(comment)}*`),
    '%FSLAX46Y46*%',
    '%MOMM*%',
    '%LPD*%',
    ...file.body,
  ];
  // The checksum leaves out line ends, so it survives a transfer that changes them.
  return ascii([...head, `%TF.MD5,${md5Hex(head.join(''))}*%`, 'M02*'].join('\n'));
}

/** Comments end at the next `*`, and `%` begins an extended command: both are left out, with what is not ASCII. */
function commentText(text: string): string {
  return text
    .replace(/[^ -~]+/g, ' ')
    .replace(/[*%]/g, ' ')
    .replace(/ +/g, ' ')
    .trim();
}

/** The text as bytes with a last line end. Throws when it is not plain ASCII. */
export function ascii(text: string): Uint8Array {
  if (/[^\n -~]/.test(text)) throw new Error('Gerber: a character outside printable ASCII');
  return new TextEncoder().encode(`${text}\n`);
}
