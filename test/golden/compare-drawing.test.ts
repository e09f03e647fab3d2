import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { compareDrawing, cutNumbers, type GalleryFolders } from './compare-drawing.ts';

test('numbers in tags are cut to three decimals, and nothing else changes', () => {
  expect(cutNumbers('<path d="M1.23449 -.50004L2e1,10.0"/>')).toBe('<path d="M1.234 -0.5L2e1,10"/>');
  expect(cutNumbers('<use x="-0.0002" y="1.5e-7" id="a12"/>')).toBe('<use x="0" y="0" id="a12"/>');
  expect(cutNumbers('<text x="100.000">drill 3.20 mm</text>')).toBe('<text x="100">drill 3.20 mm</text>');
});

describe('comparing', () => {
  let folders: GalleryFolders;
  beforeEach(() => {
    const folder = mkdtempSync(join(tmpdir(), 'golden-'));
    folders = { root: join(folder, 'root'), output: join(folder, 'output') };
    mkdirSync(join(folders.root, 'brass'), { recursive: true });
    writeFileSync(join(folders.root, 'brass', 'top.svg'), '<svg><circle r="1.5"/></svg>');
  });
  afterEach(() => rmSync(join(folders.root, '..'), { recursive: true }));

  test('a change is written beside, told by its path, and removed again when it is gone', () => {
    const changed = join(folders.output, 'brass', 'top.changed.svg');
    expect(compareDrawing('brass/top.svg', '<svg><circle r="1.502"/></svg>', folders)).toBe(changed);
    expect(readFileSync(changed, 'utf8')).toBe('<svg><circle r="1.502"/></svg>');
    expect(compareDrawing('brass/top.svg', '<svg><circle r="1.5004"/></svg>', folders)).toBeUndefined();
    expect(existsSync(changed)).toBe(false);
  });

  test('a drawing without a golden one counts as changed', () => {
    expect(compareDrawing('brass/new.svg', '<svg/>', folders)).toBe(join(folders.output, 'brass', 'new.changed.svg'));
  });
});
