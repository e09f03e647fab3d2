import { expect, it } from 'vitest';
import { packFolderName } from './pack-folder-name.ts';

it.each([
  ['examples/brass-2x2-5g8/design.toml', 'brass-2x2-5g8-pack'],
  ['design.toml', 'boathouse-pack'],
  ['mast.toml', 'mast-pack'],
  ['../mast.v2.toml', 'mast.v2-pack'],
  ['/design.toml', 'design-pack'],
  ['.toml', 'design-pack'],
  ['a\nb.toml', 'a-b-pack'],
  ['-', 'design-pack'],
])('%j gets the folder %s', (operand, name) => {
  expect(packFolderName(operand, '/home/heron/boathouse')).toBe(name);
});
