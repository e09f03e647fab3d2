import type { Design } from '../design.ts';
import type { Report } from '../report.ts';
import type { ReadFile } from '../schema/design-file.ts';
import { checkEntry } from './entry.ts';
import { checkFasteners } from './fasteners.ts';
import { checkFeed } from './feed.ts';
import { checkHarnessKind } from './harness-kind.ts';
import { checkLayers } from './layers.ts';
import { checkLosses } from './losses.ts';
import { checkReflector } from './reflector.ts';
import { checkShapes } from './shape.ts';

/** Checks of the file alone, before stock is looked up: between sections, by their words. */
export function checkFile(file: ReadFile, report: Report): void {
  const { low, high } = file.band;
  if (low >= high) {
    report.error({
      code: 'out-of-order',
      path: ['band', 'high'],
      value: `${high / 1e9} GHz`,
      allowed: 'is not above the lower edge of the band',
      remedy: 'swap them, or correct one',
    });
  }
  checkHarnessKind(file, report);
  checkLayers(file, report);
}

/** Checks of the numbers of a design that need no geometry. */
export function checkDesign(design: Design, report: Report): void {
  checkReflector(design, report);
  checkShapes(design, report);
  checkFeed(design, report);
  checkEntry(design, report);
  checkFasteners(design, report);
  checkLosses(design, report);
}
