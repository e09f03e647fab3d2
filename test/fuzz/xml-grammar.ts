/** Reads XML as far as drawings use it (XML 1.0, 2.1: well-formed) and throws at the first thing wrong: tags that do not match, bare & or <, letters that XML forbids, numbers that are none. */
export function readXml(bytes: Uint8Array): { readonly tags: number } {
  const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what XML 1.0, 2.2 forbids
  if (/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/.test(text))
    throw new Error('a character that XML forbids');
  const open: string[] = [];
  let tags = 0;
  let at = text.startsWith('<?xml') ? text.indexOf('?>') + 2 : 0;
  const tag =
    /<(?:!--(?:(?!--)[\s\S])*--|(\/?)([A-Za-z_][\w.:-]*)((?:\s+[\w.:-]+\s*=\s*(?:"[^"<]*"|'[^'<]*'))*)\s*(\/?))>/y;
  while (at < text.length) {
    const next = text.indexOf('<', at);
    requireWords(text.slice(at, next < 0 ? text.length : next), open);
    if (next < 0) break;
    tag.lastIndex = next;
    const found = tag.exec(text);
    if (found === null) throw new Error(`not a tag: ${text.slice(next, next + 60)}`);
    at = tag.lastIndex;
    const [, end, name, attributes = '', single] = found;
    if (name === undefined) continue;
    tags += 1;
    requireAttributes(attributes);
    if (end === '/' && open.pop() !== name) throw new Error(`</${name}> ends what is not open`);
    if (end !== '/' && single !== '/') open.push(name);
  }
  if (open.length > 0 || tags === 0) throw new Error(`<${open.at(-1) ?? ''}> is never ended`);
  return { tags };
}

function requireWords(words: string, open: readonly string[]): void {
  requireEntities(words);
  if (open.length === 0 && words.trim() !== '') throw new Error(`words outside the root: ${words.trim().slice(0, 40)}`);
}

function requireAttributes(text: string): void {
  const names = [...text.matchAll(/([\w.:-]+)\s*=/g)].map(([, name]) => name);
  requireEntities(text);
  for (const [, name, value] of text.matchAll(
    /(?<=\s)(d|points|x|y|x1|x2|y1|y2|cx|cy|r|width|height|viewBox|transform)="([^"]*)"/g,
  ))
    if (/NaN|Infinity|undefined|null/.test(value ?? '')) throw new Error(`${name}="${value?.slice(0, 60)}"`);
  const own = names.filter(
    (name, index) => text.includes(`${name}="`) && names.indexOf(name) !== index && !text.includes(`"${name}`),
  );
  if (own.length > 0) throw new Error(`${own[0]} is given twice`);
}

function requireEntities(text: string): void {
  if (/&(?!(?:amp|lt|gt|quot|apos|#\d+|#x[\da-fA-F]+);)/.test(text)) throw new Error('a bare &');
}
