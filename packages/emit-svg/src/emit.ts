import type { Assembly, EmittedFile } from '@sheetwave/geometry';
import { antennaExploded } from './antenna-exploded.ts';
import { antennaTop } from './antenna-top.ts';
import { drillMap } from './drill-map.ts';
import { flatParts } from './part-words.ts';
import { stackSection } from './stack-section.ts';
import { markingTemplate } from './template.ts';

/**
 * The drawings of an assembly: a drill map for each part with holes and a marking-out template for each plate, both at 1:1,
 * and the pictures of the whole. The same assembly gives the same bytes.
 */
export function emitSvg(assembly: Assembly): readonly EmittedFile[] {
  const flat = flatParts(assembly);
  const maps = flat.flatMap((part) => drillMap(assembly, part) ?? []);
  const templates = flat.flatMap((part) => (part.form === 'plate' ? [markingTemplate(assembly, part)] : []));
  return [...maps, ...templates, antennaTop(assembly), antennaExploded(assembly), stackSection(assembly)];
}
