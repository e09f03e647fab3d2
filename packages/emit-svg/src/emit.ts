import type { Finding } from '@sheetwave/design';
import { drillMap, etchFilms, type FlatPart, flatParts, markingTemplate, type PartDrawing } from '@sheetwave/drawings';
import type { Assembly, EmittedFile, FileKind, PlatePart } from '@sheetwave/geometry';
import { antennaExploded, antennaTop, type Picture, stackSection } from '@sheetwave/pictures';
import { fileOf, openCanvas } from './canvas.ts';
import { sheetOf } from './sheet.ts';

/**
 * The drawings of an assembly: a drill map for each part with holes, a marking-out template for each plate and a film for each
 * side to be etched, all at 1:1, and the pictures of the whole. `findings` that have a place are numbered in the exploded picture. The
 * same assembly and findings give the same bytes.
 */
export function emitSvg(
  assembly: Assembly,
  { findings = [] }: { readonly findings?: readonly Finding[] } = {},
): readonly EmittedFile[] {
  const flat = flatParts(assembly);
  const maps = flat.flatMap((part) => drillMapFile(assembly, part) ?? []);
  const templates = flat.flatMap((part) => (part.form === 'plate' ? [templateFile(assembly, part)] : []));
  const films = etchFilms(assembly).map(({ part, side, drawing }) =>
    sheetFile(drawing, { path: `etch/${part.id}-${side}-film.svg`, kind: 'etch-mask', part: part.id }),
  );
  return [
    ...maps,
    ...templates,
    ...films,
    pictureFile('antenna-top', antennaTop(assembly)),
    pictureFile('antenna-exploded', antennaExploded(assembly, findings)),
    pictureFile('stack-section', stackSection(assembly)),
  ];
}

/** A picture on a page of its own. */
export function pictureFile(name: string, picture: Picture): EmittedFile {
  const canvas = openCanvas(picture);
  picture.draw(canvas);
  return fileOf(canvas, { path: `pictures/${name}.svg`, kind: 'picture-svg', part: undefined });
}

/** The drill map of a part; undefined for a part without holes. */
export function drillMapFile(assembly: Assembly, part: FlatPart): EmittedFile | undefined {
  const drawing = drillMap(assembly, part);
  if (drawing === undefined) return undefined;
  return sheetFile(drawing, { path: `templates/${part.id}-drill-map.svg`, kind: 'drill-map-svg', part: part.id });
}

/** The marking-out template of a plate. */
export function templateFile(assembly: Assembly, part: PlatePart): EmittedFile {
  const about = { path: `templates/${part.id}-template.svg`, kind: 'template-svg', part: part.id } as const;
  return sheetFile(markingTemplate(assembly, part), about);
}

function sheetFile(drawing: PartDrawing, about: { path: string; kind: FileKind; part: string }): EmittedFile {
  return fileOf(sheetOf(drawing), about);
}
