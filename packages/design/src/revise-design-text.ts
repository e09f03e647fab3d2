import { editDesignText, type TextEdit } from './edit-design-text.ts';
import { parseText } from './toml.ts';
import { scanText } from './toml-scan.ts';

/** `A` → `B`, `Z` → `AA`, `9` → `10`, `B2` → `B3`; `-2` after anything else. At most the 20 characters that a revision has. */
export function nextRevision(revision: string): string {
  const [, before = '', digits] = /^(.*?)(\d{1,9})$/.exec(revision) ?? [];
  if (digits !== undefined) return `${before}${String(Number(digits) + 1).padStart(digits.length, '0')}`;
  if (!/^[A-Z]{1,8}$/.test(revision)) return `${revision.slice(0, 18)}-2`;
  const letters = [...revision];
  for (let i = letters.length - 1; i >= 0; i--) {
    const letter = letters[i] ?? 'A';
    if (letter !== 'Z') {
      letters[i] = String.fromCharCode(letter.charCodeAt(0) + 1);
      return letters.join('');
    }
    letters[i] = 'A';
  }
  return `A${letters.join('')}`;
}

/**
 * The text of a design with another revision: changed where it stands, else put on a line of its own after the name. Nothing else
 * changes. A finding when the text is no design with a name.
 */
export function reviseDesignText(text: string, revision: string): TextEdit {
  const edit = editDesignText(text, 'revision', revision);
  if (edit.ok || edit.finding.code !== 'not-written') return edit;
  const name = scanText(text).get('name')?.value;
  const read = parseText(text);
  if (name === undefined || !('file' in read)) return edit;
  const lineEnd = text.indexOf('\n', name.to);
  const at = lineEnd < 0 ? text.length : lineEnd;
  const lineBreak = text.charAt(at - 1) === '\r' ? '\r\n' : '\n';
  const put = `${lineBreak}revision = ${JSON.stringify(revision)}`;
  const inserted = `${text.slice(0, at).replace(/\r$/, '')}${put}${lineBreak === '\r\n' ? '\r' : ''}${text.slice(at)}`;
  // What was put in is read again, and changed to itself: that proves it stands where it should.
  return editDesignText(inserted, 'revision', revision);
}
