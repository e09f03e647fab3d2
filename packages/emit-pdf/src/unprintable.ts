import { openPdf } from './pdf-file.ts';

/** Printable ASCII and white space: every face has it, and no face need be opened to know that. */
const EVERYWHERE = /^[\x20-\x7e\s]*$/;

/** The signs of a text that the faces of this package cannot print, each once, in the order of the text. They print as `?`. */
export function unprintable(text: string): readonly string[] {
  if (EVERYWHERE.test(text)) return [];
  return openPdf({ title: '', subject: '', date: undefined }).missing(text);
}
