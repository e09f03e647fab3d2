/** Text of a stranger as plain words in Markdown: no markup, no line breaks, safe inside a table cell. */
export function plain(text: string): string {
  return text
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/[\\`*_[\]<>#|~!&]/g, '\\$&');
}

/** A table with a head; cells must be Markdown already (`plain` for foreign text). Empty without rows. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  if (rows.length === 0) return '';
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

/** A section, or nothing when its body is empty. */
export function section(title: string, body: string): string {
  return body === '' ? '' : `## ${title}\n\n${body}`;
}

export function bullets(items: readonly string[]): string {
  return items.map((item) => `- ${item}`).join('\n');
}
