import type { Report } from '../report.ts';
import { layerName } from '../resolve/layers.ts';
import type { ReadFile } from '../schema/design-file.ts';

type FileLayer = ReadFile['layer'][number];

/** Names become file names, which some systems compare without capitals. */
function checkNames(layers: readonly FileLayer[], report: Report): void {
  const seen = new Set<string>();
  layers.forEach((layer, index) => {
    const name = layerName(layer, index);
    if (seen.has(name.toLowerCase())) {
      report.error({
        code: 'name-taken',
        path: ['layer', index, 'name'],
        value: `"${name}"`,
        allowed: 'is the name of another layer',
        remedy: 'give each layer its own name',
      });
    }
    seen.add(name.toLowerCase());
  });
}

function checkBoardFields(layer: FileLayer, index: number, report: Report): void {
  if (layer.board !== undefined) return;
  for (const key of ['copper_side', 'border'] as const) {
    if (layer[key] === undefined) continue;
    report.error({
      code: 'too-many-fields',
      path: ['layer', index, key],
      allowed: 'is only for a patch on a board of its own',
      remedy: 'leave it out, or give the layer a board',
    });
  }
}

function checkFixingHole(layer: FileLayer, index: number, report: Report): void {
  if (layer.fixing_hole !== 'none' || layer.spacer === undefined) return;
  report.error({
    code: 'missing-hole',
    path: ['layer', index, 'fixing_hole'],
    value: '"none"',
    allowed: 'leaves nothing to fasten this layer to its spacer with',
    remedy: 'leave it out to take the clearance hole, or give a diameter',
  });
}

/** What must hold between the fields of each layer, and their names among themselves. */
export function checkLayers(file: ReadFile, report: Report): void {
  checkNames(file.layer, report);
  file.layer.forEach((layer, index) => {
    checkBoardFields(layer, index, report);
    checkFixingHole(layer, index, report);
  });
}
