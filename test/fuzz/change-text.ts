import type { Random } from './random.ts';

const PIECES = [
  ...[
    '"',
    "'",
    '"""',
    "'''",
    '[',
    ']',
    '[[',
    ']]',
    '{',
    '}',
    '=',
    ',',
    '.',
    '#',
    '\n',
    '\r',
    '\r\n',
    '\t',
    '\\',
    '\\u0000',
    '\\U0010FFFF',
  ],
  ...['\ufeff', '\u0000', '\u0007', '\u00a0', '\u2028', '\u202e', '\ufffd', '\u{1f4e1}', 'e\u0301', '…', '−', '１'],
  ...[
    '1e400',
    '-0',
    '0x1F',
    '1_000',
    '99999999999999999999',
    'nan',
    'inf',
    'true',
    '2026-02-30',
    '2026-05-17T25:61:00Z',
    '__proto__ = 1\n',
  ],
  ...[
    '[band]\n',
    '[[layer]]\n',
    '[layer]\n',
    '[a.b.c.d]\n',
    'format = 1\n',
    'layer = []\n',
    'name = "x"\n',
    'x = """\n',
    '<svg>',
    '0\nSECTION\n',
  ],
];

type Change = (random: Random, text: string) => string;

const place = (random: Random, text: string): number => random.whole(0, text.length);

const CHANGES: readonly Change[] = [
  (random, text) => spliced(text, place(random, text), { cut: random.whole(1, 40), put: '' }),
  (random, text) => spliced(text, place(random, text), { cut: 0, put: random.pick(PIECES) }),
  (random, text) => spliced(text, place(random, text), { cut: random.whole(1, 8), put: random.pick(PIECES) }),
  (random, text) => spliced(text, place(random, text), { cut: 1, put: String.fromCharCode(random.whole(1, 0xd7ff)) }),
  (random, text) =>
    spliced(text, place(random, text), {
      cut: 0,
      put: random.pick(['[', '{a=', '[[', '(']).repeat(random.pick([3, 200, 20_000])),
    }),
  (random, text) => text.slice(0, place(random, text)),
  (random, text) => text.slice(place(random, text)),
  (random, text) => spliced(text, place(random, text), { cut: 0, put: cutOut(random, text) }),
  (random, text) => withLines(text, (lines) => [...lines, random.pick(lines)]),
  (random, text) => withLines(text, (lines) => lines.filter(() => random.chance(0.9))),
  (random, text) => withLines(text, (lines) => lines.flatMap((line) => (random.chance(0.1) ? [line, line] : [line]))),
  (random, text) => withLines(text, (lines) => [...lines].sort(() => (random.chance(0.5) ? 1 : -1))),
  (_, text) => text.replaceAll('\n', '\r\n'),
  (random, text) =>
    text.replace(/\d+(?:\.\d+)?/g, (number) =>
      random.chance(0.05) ? random.pick(['0', '1e9', '-1', '1e308', '0.0001', `${number}e3`]) : number,
    ),
  (random, text) => text.replace(/\d/g, (digit) => (random.chance(0.02) ? String(random.whole(0, 9)) : digit)),
];

/** A text with one to four changes of single letters, pieces or lines. */
export function brokenText(random: Random, text: string): string {
  let broken = text;
  for (let left = random.whole(1, 4); left > 0; left -= 1) broken = random.pick(CHANGES)(random, broken);
  return broken;
}

const spliced = (text: string, from: number, { cut, put }: { readonly cut: number; readonly put: string }): string =>
  text.slice(0, from) + put + text.slice(from + cut);

function cutOut(random: Random, text: string): string {
  const from = place(random, text);
  return text.slice(from, from + random.whole(1, 200));
}

const withLines = (text: string, change: (lines: readonly string[]) => readonly string[]): string =>
  change(text.split('\n')).join('\n');
