import type { Assembly, BoardPart } from '@sheetwave/geometry';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import manifest from '../package.json' with { type: 'json' };
import { attributeText, boardIdentity, fullDate, SOFTWARE } from './attributes.ts';
import { guidOf, md5Hex } from './digest.ts';

const design = { name: 'Heron Lock panel', revision: 'B', date: undefined } as Assembly['design'];
const board = (id: string) => ({ id }) as BoardPart;

test('an identifier has the shape of a random GUID', () => {
  // Source: RFC 4122, sections 3 and 4.4 (confirmed): version nibble 4, variant bits 10.
  fc.assert(
    fc.property(fc.string(), (content) => {
      expect(guidOf(content)).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    }),
    { seed: 4122 },
  );
});

test('an identifier keeps the digest apart from version and variant', () => {
  // Source: SHA-256 of "abc", FIPS 180-2 appendix B.1 (memory): ba7816bf 8f01cfea 414140de 5dae2223 b00361a3 96177a9c …
  expect(guidOf('abc')).toBe('ba7816bf-8f01-4fea-8141-40de5dae2223');
});

test('the checksum is MD5', () => {
  // Source: RFC 1321, appendix A.5 (memory).
  expect(md5Hex('abc')).toBe('900150983cd24fb0d6963f7d28e17f72');
});

test('equal designs are known by the same identifiers, other revisions and boards by others', () => {
  const first = boardIdentity(design, board('reflector'));
  expect(boardIdentity({ ...design }, board('reflector'))).toEqual(first);
  const revised = boardIdentity({ ...design, revision: 'C' }, board('reflector'));
  expect(revised.project.guid).not.toBe(first.project.guid);
  const other = boardIdentity(design, board('patch-outer'));
  expect(other.project.guid).toBe(first.project.guid);
  expect(other.coordinates).not.toBe(first.coordinates);
});

test('a date becomes a full date with its zone', () => {
  expect(fullDate(undefined)).toBeUndefined();
  expect(fullDate('2026-05-17')).toBe('2026-05-17T00:00:00+00:00');
  expect(fullDate('2026-05-17T08:30:00+02:00')).toBe('2026-05-17T08:30:00+02:00');
  expect(() => fullDate('17 May 2026')).toThrow(/17 May 2026/);
});

test('what would end a field or the command is escaped', () => {
  const fields = ['Weir 50%, north*', 'höhe\\5', '🛶'];
  expect(attributeText({ name: '.ProjectId', fields })).toBe(
    '.ProjectId,Weir 50\\u0025\\u002C north\\u002A,h\\u00F6he\\u005C5,\\U0001F6F6',
  );
});

test('the version written is that of the package', () => {
  expect(SOFTWARE.version).toBe(manifest.version);
});
