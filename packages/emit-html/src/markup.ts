/** Markup that has been escaped; only `text` and `element` make it. */
export interface Markup {
  readonly html: string;
}

const SIGNS: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** A text as it stands. */
const text = (words: string): Markup => ({ html: words.replace(/[&<>"]/g, (sign) => SIGNS[sign] ?? sign) });

/** Markup that another program made, such as an `<svg>`. */
export const trusted = (html: string): Markup => ({ html });

/** Elements without an end tag (HTML, section 13.1.2, void elements). */
const VOID = new Set(['meta', 'br', 'hr']);

/** An element with its attributes; children are texts or elements. */
export function element(
  tag: string,
  attributes: Readonly<Record<string, string>> = {},
  children: readonly (Markup | string)[] = [],
): Markup {
  const written = Object.entries(attributes).map(([name, value]) => ` ${name}="${text(value).html}"`);
  const open = `<${tag}${written.join('')}>`;
  if (VOID.has(tag)) return { html: open };
  const inner = children.map((child) => (typeof child === 'string' ? text(child).html : child.html)).join('');
  return { html: `${open}${inner}</${tag}>\n` };
}
