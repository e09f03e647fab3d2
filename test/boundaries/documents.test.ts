import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { describe, expect, test } from 'vitest';
import { projectFiles, ROOT, readManifest, readText } from './workspace.ts';

const documents = projectFiles().filter((path) => path.endsWith('.md'));
const manifest = readManifest('.');

interface Mention {
  readonly document: string;
  readonly line: number;
  readonly text: string;
}

const say = (mention: Mention) => `${mention.document}:${mention.line}: ${mention.text}`;

/** Everything in a document that one of the patterns finds; the first group is what it found. */
function mentions(document: string, ...patterns: readonly RegExp[]): Mention[] {
  return readText(document)
    .split('\n')
    .flatMap((line, index) =>
      patterns
        .flatMap((pattern) => [...line.matchAll(pattern)])
        .map((match) => ({ document, line: index + 1, text: (match[1] ?? '').trim() })),
    );
}

const links = documents
  .flatMap((document) =>
    mentions(document, /\]\(([^)\s]+)[^)]*\)/g, /(?:src|href)="([^"]+)"/g, /^\[[^\]]+\]:\s+(\S+)/g),
  )
  .filter((link) => !/^[a-z][a-z0-9+.-]*:/i.test(link.text));

/** Headings as the anchors that common Markdown viewers make of them: lower case, no punctuation, spaces to hyphens. */
function anchors(document: string): Set<string> {
  const headings = mentions(document, /^#{1,6}\s+(.+?)\s*#*$/g).map((heading) => heading.text);
  return new Set(
    headings.map((text) =>
      text
        .toLowerCase()
        .replace(/[^\p{L}\p{N}\s_-]/gu, '')
        .replace(/\s/g, '-'),
    ),
  );
}

function targetOf(link: Mention): { path: string; anchor: string } {
  const [path = '', anchor = ''] = decodeURIComponent(link.text).split('#');
  const target = path === '' ? link.document : normalize(join(dirname(link.document), path));
  return { path: target.replaceAll('\\', '/'), anchor };
}

describe('links in the documents', () => {
  test('lead to a file that exists, inside the project', () => {
    const dead = links.filter(
      (link) => targetOf(link).path.startsWith('..') || !existsSync(join(ROOT, targetOf(link).path)),
    );
    expect(dead.map(say)).toEqual([]);
  });

  test('lead to a heading that exists', () => {
    const dead = links.filter((link) => {
      const { path, anchor } = targetOf(link);
      return anchor !== '' && path.endsWith('.md') && !anchors(path).has(anchor);
    });
    expect(dead.map(say)).toEqual([]);
  });

  test('a file or folder named in code type is there', () => {
    const named = documents.flatMap((document) =>
      mentions(document, /`((?:packages|test|examples|scripts|\.ci)\/[\w./-]+)`/g),
    );
    // What commands make is named too, and is there only afterwards.
    const made = /^packages\/[^/]+\/dist\b|^test\/output\b/;
    expect(named.filter((one) => !made.test(one.text) && !existsSync(join(ROOT, one.text))).map(say)).toEqual([]);
  });
});

describe('commands in the documents', () => {
  /** The text of inline code and of lines in code blocks that begin with this command. */
  const commands = (name: string) =>
    documents.flatMap((document) =>
      mentions(
        document,
        new RegExp(`\`(${name}(?: [^\`]*)?)\``, 'g'),
        new RegExp(`^\\s*(?:\\$ )?(${name}(?:\\s.*)?)$`, 'g'),
      ),
    );

  test('npm scripts exist', () => {
    const scripts = manifest.scripts ?? {};
    const own = new Set(['ci', 'install']);
    const named = commands('npm').map((one) => ({
      ...one,
      script: /^npm (?:run )?(?:-s )?([\w:-]+)/.exec(one.text)?.[1],
    }));
    expect(named.filter(({ script }) => script && !own.has(script) && !(script in scripts)).map(say)).toEqual([]);
  });

  test('programs run with npx are installed by the project', () => {
    const named = commands('npx').map((one) => ({ ...one, program: /^npx ([\w@/-]+)/.exec(one.text)?.[1] ?? '' }));
    expect(named.filter(({ program }) => !existsSync(join(ROOT, 'node_modules', '.bin', program))).map(say)).toEqual(
      [],
    );
  });

  test('scripts run with node exist', () => {
    const named = commands('node').map((one) => ({ ...one, script: /^node ([\w./-]+\.m?[jt]s)/.exec(one.text)?.[1] }));
    expect(named.filter(({ script }) => script && !existsSync(join(ROOT, script))).map(say)).toEqual([]);
  });

  test('what follows sheetwave is a command and options that its help names', () => {
    const command = join(ROOT, 'packages', 'cli', 'bin', 'sheetwave.mjs');
    const helpOf = (...words: string[]) =>
      spawnSync(process.execPath, [command, ...words, '--help'], { encoding: 'utf8' }).stdout;
    const general = helpOf();
    expect(general).toContain('sheetwave');
    const names = (help: string, word: string) => new RegExp(`(?<![\\w-])${word}(?![\\w-])`).test(help);
    const wrong = commands('npx sheetwave').filter((one) => {
      const [first, ...rest] = one.text.split(/\s+#/)[0]?.split(/\s+/).slice(2) ?? [];
      if (first === undefined) return false;
      if (!names(general, first)) return true;
      const help = first.startsWith('-') ? general : helpOf(first);
      return rest.some((word) => /^--?[a-z]/.test(word) && !names(help, word.replace(/[=,;].*/, '')));
    });
    expect(wrong.map(say)).toEqual([]);
  });
});

test('the documents that every reader looks for are there', () => {
  expect(documents).toEqual(expect.arrayContaining(['README.md', 'DEVELOPERS.md']));
  expect(existsSync(join(ROOT, 'LICENSE'))).toBe(true);
});
