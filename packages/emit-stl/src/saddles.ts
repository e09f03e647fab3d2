import type { Assembly, EmittedFile } from '@sheetwave/geometry';
import { fittingInscription, type Inscription, lettering, MARGIN_MM } from './engraving.ts';
import { movedFlat, polygon, without } from './flat-shapes.ts';
import { levelsFiles } from './levels-file.ts';
import { type Printed, short } from './print.ts';
import { hasPlace, type Room, type Stretch, stretches } from './saddle-places.ts';

/** Lengths along the conductor, tried in turn. */
const LENGTHS_MM = [10, 8, 6, 5, 4];
/** Thinner ledges break. Two lines of a 0.4 mm nozzle (common practice). */
const LEAST_LEDGE_MM = 0.8;
/** How far the post stands past the conductor. */
const PAST_MM = 3;
const POST_MM = 12;

/** A conductor's cross-section above the reflector. */
interface Section {
  readonly kind: 'rod' | 'tube' | 'strip';
  readonly sizeMm: number;
  readonly undersideMm: number;
  readonly topMm: number;
}

/**
 * Saddles that stand on the reflector beside a conductor of the harness and carry it at its height while it is soldered: a
 * ledge under it and a post beside it. Two of them, one from each side, hold it; each is pulled out sideways afterwards. One
 * file for each size of conductor, so that a tube and the rod in it lie on one axis.
 */
export function saddles(assembly: Assembly): Printed {
  const { harness } = assembly.design;
  if (harness.kind !== 'rod' && harness.kind !== 'strip') return { files: [], notes: [] };
  const sizes = [...new Set(assembly.harness.flatMap((split) => split.arms.flat()).map(({ sizeMm }) => sizeMm))];
  const made = sizes.sort((a, b) => a - b).map((sizeMm) => saddleFor(assembly, sectionOf(assembly, sizeMm)));
  return { files: made.flatMap(({ files }) => files), notes: made.flatMap(({ notes }) => notes) };
}

function sectionOf({ design: { harness } }: Assembly, sizeMm: number): Section {
  if (harness.kind === 'strip')
    return {
      kind: 'strip',
      sizeMm,
      undersideMm: harness.heightMm,
      topMm: harness.heightMm + harness.sheet.thicknessMm,
    };
  if (harness.kind !== 'rod') throw new Error(`a ${harness.kind} harness needs no saddle`);
  const isRod = harness.levels.some(({ rod }) => rod.diameterMm === sizeMm);
  return {
    kind: isRod ? 'rod' : 'tube',
    sizeMm,
    undersideMm: harness.heightMm - sizeMm / 2,
    topMm: harness.heightMm + sizeMm / 2,
  };
}

function saddleFor(assembly: Assembly, section: Section): Printed {
  const title = `saddle for the ${section.kind} of ${short(section.sizeMm)} mm`;
  if (section.undersideMm < LEAST_LEDGE_MM)
    return {
      files: [],
      notes: [
        `${title} left out: its ledge would be ${short(section.undersideMm)} mm thick, at least ${LEAST_LEDGE_MM} mm is needed`,
      ],
    };
  const profile = profileOf(assembly, section);
  const outMm = profile.under + profile.beside + 2 * profile.post;
  const own = stretches(assembly, outMm).filter(({ run }) => run.sizeMm === section.sizeMm);
  const found = longest(own, { underMm: profile.under, outMm });
  if (found === undefined)
    return {
      files: [],
      notes: [`${title} left out: patches and conductors leave it no place of ${LENGTHS_MM.at(-1)} mm`],
    };
  const notes = [
    ...(found.places < own.length
      ? [`${title}: it finds a place on ${found.places} of ${own.length} stretches of its size`]
      : []),
    ...(profile.text === undefined ? [`${title}: no room for its name`] : []),
  ];
  return { files: filesOf(assembly, { section, profile, title, lengthMm: found.lengthMm }), notes };
}

/** The longest saddle that finds a place wherever any does. */
function longest(
  own: readonly Stretch[],
  room: Omit<Room, 'lengthMm'>,
): { readonly lengthMm: number; readonly places: number } | undefined {
  const counts = LENGTHS_MM.map((lengthMm) => ({
    lengthMm,
    places: own.filter((stretch) => hasPlace(stretch, { ...room, lengthMm })).length,
  }));
  const most = Math.max(...counts.map(({ places }) => places));
  return most === 0 ? undefined : counts.find(({ places }) => places === most);
}

interface Profile {
  /** From the axis to the end of the ledge, to the post, and the post's own width and height. */
  readonly under: number;
  readonly beside: number;
  readonly post: number;
  readonly heightMm: number;
  readonly text: Inscription | undefined;
}

function profileOf({ design: { print, revision } }: Assembly, section: Section): Profile {
  const letters = lettering(print);
  const wording = `${short(section.sizeMm)} ${revision}`;
  const text = fittingInscription([wording], letters, { widthMm: 60, heightMm: 1.2 * (letters.heightsMm[0] ?? 0) });
  return {
    under: section.sizeMm / 2 + 0.5,
    beside: section.sizeMm / 2 + print.fitClearanceMm,
    post: Math.max(POST_MM, (text?.widthMm ?? 0) + 2 * MARGIN_MM),
    heightMm: Math.max(section.topMm + PAST_MM, (text?.heightMm ?? 0) + 2 * MARGIN_MM),
    text,
  };
}

function filesOf(
  { design: { print } }: Assembly,
  saddle: { readonly section: Section; readonly profile: Profile; readonly title: string; readonly lengthMm: number },
): readonly EmittedFile[] {
  const { section, profile, title, lengthMm } = saddle;
  const { under, beside, post, heightMm, text } = profile;
  const letters = lettering(print);
  const outline = polygon([
    { x: -under, y: 0 },
    { x: beside + post, y: 0 },
    { x: beside + post, y: heightMm },
    { x: beside, y: heightMm },
    { x: beside, y: section.undersideMm },
    { x: -under, y: section.undersideMm },
  ]);
  const name =
    text === undefined ? [] : [movedFlat(text.flat, { x: beside + MARGIN_MM, y: (heightMm - text.heightMm) / 2 })];
  return levelsFiles({
    path: `jigs/saddle-${section.kind}-${section.sizeMm.toFixed(2)}mm`,
    title,
    use: `Print two for each stretch, in a plastic that stands heat. They stand on the reflector on both sides of the ${section.kind}, their ledges under it, clear of every joint; tape that stands heat, or metal foil, between them and the iron. Pull them out sideways.`,
    part: undefined,
    bevelMm: Math.min(print.elephantFootMm, section.undersideMm / 4),
    levels: [
      { flat: outline, topMm: lengthMm - letters.depthMm },
      { flat: without(outline, name), topMm: lengthMm },
    ],
  });
}
