import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** The project, whose golden drawings are named by their path from here, and the folder for changed ones. */
export interface GalleryFolders {
  readonly root: string;
  readonly output: string;
}

/**
 * A drawing with every number of its tags cut to three decimals (1 µm where the unit is 1 mm), so that the last bits of a
 * computation, which differ between machines, do not count as a change. Text that a reader sees stays as it is,
 * and so does the XML declaration, whose version is no measure.
 */
export function cutNumbers(svg: string): string {
  return svg.replace(/<[^?>][^>]*>/g, (tag) => tag.replace(/-?\d*\.\d+(?:e[+-]?\d+)?/gi, cutNumber));
}

function cutNumber(text: string): string {
  const cut = Number(text)
    .toFixed(3)
    .replace(/\.?0+$/, '');
  return cut === '-0' ? '0' : cut;
}

/**
 * Compares a drawing with the golden one that is kept at this path from the root. Returns undefined when they agree; else
 * the path of the changed drawing, which is written for the gallery. A changed drawing of an earlier run is removed when
 * there is no change.
 */
export function compareDrawing(kept: string, drawn: string, folders: GalleryFolders): string | undefined {
  const golden = join(folders.root, kept);
  const changed = join(folders.output, kept.replace(/\.svg$/, '.changed.svg'));
  const now = cutNumbers(drawn);
  if (existsSync(golden) && readFileSync(golden, 'utf8') === now) {
    rmSync(changed, { force: true });
    return undefined;
  }
  mkdirSync(dirname(changed), { recursive: true });
  writeFileSync(changed, now);
  return changed;
}
