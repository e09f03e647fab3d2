/** The tones of one material: faces toward the light, away from it, and its edges. */
export interface Tones {
  readonly light: string;
  readonly mid: string;
  readonly dark: string;
}

const BRASS: Tones = { light: '#efe0ae', mid: '#dcc27a', dark: '#b3924c' };
const COPPER: Tones = { light: '#e7b994', mid: '#cf9066', dark: '#a2663f' };
const ALUMINIUM: Tones = { light: '#eceeef', mid: '#d3d7da', dark: '#a4abb1' };
const STEEL: Tones = { light: '#dfe2e5', mid: '#b9bfc5', dark: '#838b93' };
const PLASTIC: Tones = { light: '#faf8f1', mid: '#ece8da', dark: '#c9c3ae' };
const LAMINATE: Tones = { light: '#e4e8d6', mid: '#cbd2b4', dark: '#9ba47f' };
const DARK: Tones = { light: '#6b7075', mid: '#4c5156', dark: '#2f3337' };

/** Ink of the pictures: near black for words and edges, grey for dimensions and leaders, one accent for the feed. */
export const INK = '#2b2620';
export const SOFT = '#8a8378';
/** Second lines of words. */
export const QUIET = '#5d564c';
/** Lines that guide the eye and carry no meaning of their own. */
export const FAINT = '#d8d2c6';
export const ACCENT = '#a33b20';
export const PAPER = '#ffffff';

export const TONES = { laminate: LAMINATE, copper: COPPER, dark: DARK, plastic: PLASTIC, steel: STEEL } as const;

/** Tones of a material by its name; what is not known is drawn as steel. */
export function tonesOf(material: string): Tones {
  const name = material.toLowerCase();
  if (/brass|bronze/.test(name)) return BRASS;
  if (/copper/.test(name)) return COPPER;
  if (/alumin/.test(name)) return ALUMINIUM;
  if (/nylon|ptfe|polyamide|plastic|petg|asa|pla|acetal|polycarbonate/.test(name)) return PLASTIC;
  return STEEL;
}

/** Blend of two `#rrggbb` colours; 0 gives the first, 1 the second. */
export function blend(from: string, to: string, part: number): string {
  const channel = (at: number): string => {
    const [a, b] = [from, to].map((colour) => Number.parseInt(colour.slice(at, at + 2), 16));
    return Math.round((a ?? 0) + ((b ?? 0) - (a ?? 0)) * part)
      .toString(16)
      .padStart(2, '0');
  };
  return `#${channel(1)}${channel(3)}${channel(5)}`;
}
