/**
 * Reads the frame of a PDF file (ISO 32000-1, 7.5) and throws at the first thing wrong: the head, the cross-reference table whose
 * every entry points at its object, the trailer. The streams of our pages are stored as they are, so their numbers can be judged too.
 */
export function readPdf(bytes: Uint8Array): { readonly pages: number } {
  const text = Buffer.from(bytes).toString('latin1');
  if (!/^%PDF-1\.\d\n/.test(text)) throw new Error('no PDF head');
  const [, start] = /startxref\n(\d+)\n%%EOF\n?$/.exec(text) ?? [];
  if (start === undefined) throw new Error('no startxref at the end');
  const table = /^xref\n0 (\d+)\n((?:\d{10} \d{5} [nf] ?\r?\n)+)trailer/.exec(text.slice(Number(start)));
  if (table === null) throw new Error('no cross-reference table where startxref points');
  const entries = (table[2] ?? '').trim().split(/ ?\r?\n/);
  if (entries.length !== Number(table[1])) throw new Error('the cross-reference table has another size than it says');
  entries.forEach((entry, number) => {
    if (entry.endsWith('n') && !text.startsWith(`${number} 0 obj`, Number(entry.slice(0, 10))))
      throw new Error(`object ${number} is not where the table points`);
  });
  const content = text.slice(0, Number(start));
  if (/(?:^|[\s[])(?:NaN|-?Infinity|undefined|null null)(?=[\s\]])/m.test(content))
    throw new Error('a number that is none');
  return { pages: content.match(/\/Type \/Page\b(?!s)/g)?.length ?? 0 };
}
