import { type Finding, type Material, type Spacer, threadRow } from '@sheetwave/design';
import type { Assembly, Point3 } from '../assembly.ts';
import { mm } from '../finding.ts';
import { type Entry, goesInMm, nutEnds, type ThreadedSpacer, threadedChain } from './chain.ts';
import { placedError, placedWarning } from './placed.ts';

/**
 * Adds up what is screwed into every thread: two studs, or a stud and a screw, that meet inside one bore, a stud that bottoms, thread
 * that is too short to hold, and nuts without a full thread. Where a stud is too long it says how much to trim off which.
 */
export function threadFindings(assembly: Assembly): Finding[] {
  const centre = assembly.elements[0]?.centre ?? { x: 0, y: 0 };
  return [
    ...threadedChain(assembly).flatMap((link) =>
      linkFindings(link, { ...centre, z: link.footMm + link.spacer.bodyMm / 2 }),
    ),
    ...nutFindings(assembly, centre),
  ];
}

/** A stud to shorten, or a screw that must be shorter, before the stack can be clamped. */
export interface Trim {
  readonly kind: Entry['kind'];
  /** Id of the part it belongs to. */
  readonly part: string;
  /** As bought: of the stud, or of the screw under its head. */
  readonly lengthMm: number;
  readonly byMm: number;
  /** The spacer whose thread it goes into, and that spacer's layer. */
  readonly into: string;
  readonly layer: number;
}

/** What has to be trimmed in each stack, from the reflector outward; the findings say the same in words. */
export function studTrims(assembly: Assembly): Trim[] {
  return threadedChain(assembly).flatMap(({ spacer, layer, below, above }) => {
    const kept = (entry: Entry): number => {
      const inMm = goesInMm(entry);
      return inMm > spacer.threadDepthMm + 1e-9 ? spacer.threadDepthMm - threadRow(spacer.thread).pitchMm : inMm;
    };
    const meet = below && above && theyMeet(spacer, below, above);
    const [keepA, keepB] = meet ? keptWhereTheyMeet(spacer, goesInMm(below), goesInMm(above)) : [];
    return [
      { entry: below, keep: keepA },
      { entry: above, keep: keepB },
    ].flatMap(({ entry, keep }) => {
      if (entry === undefined) return [];
      const byMm = upToTenths(goesInMm(entry) - (keep ?? kept(entry)));
      const { kind, part, lengthMm } = entry;
      return byMm > 1e-9 ? [{ kind, part, lengthMm, byMm, into: spacer.id, layer }] : [];
    });
  });
}

/**
 * Least thread in diameters: 1 in brass and steel, 1.5 in aluminium, 2 in plastic (shop rule, memory).
 */
function leastThreads(material: Material): number {
  if (material.conductivitySm === 0) return 2;
  return material.name === 'aluminium' ? 1.5 : 1;
}

function linkFindings(link: ThreadedSpacer, at: Point3): Finding[] {
  const { spacer, below, above } = link;
  if (below && above && theyMeet(spacer, below, above)) return [meetingFinding(link, below, { above, at })];
  return [below, above].flatMap((entry) => (entry ? entryFinding(link, entry, at) : []));
}

const theyMeet = (spacer: Spacer, below: Entry, above: Entry): boolean =>
  spacer.through && goesInMm(below) + goesInMm(above) > spacer.bodyMm + 1e-9;

/** The classic trap: both ends tighten on each other and the sheets between stay loose. */
function meetingFinding(
  { spacer }: ThreadedSpacer,
  below: Entry,
  { above, at }: { readonly above: Entry; readonly at: Point3 },
): Finding {
  const [a, b] = [goesInMm(below), goesInMm(above)];
  const [keepA, keepB] = keptWhereTheyMeet(spacer, a, b);
  const trims = [trimWords(below, a - keepA), trimWords(above, b - keepB)].filter((words) => words !== undefined);
  const left = Math.min(keepA, keepB);
  const found = {
    code: 'studs-meet-in-spacer',
    path: above.path,
    value: `${mm(a)} of ${nameOf(below)} and ${mm(b)} of ${nameOf(above)}`,
    allowed: `meet inside the ${spacer.id} spacer, which is ${mm(spacer.bodyMm)} long: ${mm(a + b - spacer.bodyMm)} too much, so that neither clamps its sheet`,
    remedy: `${trims.join(' and ')}, which leaves ${mm(left)} of thread at the shorter end${enough(spacer, left)}`,
    at,
    parts: [spacer.id, below.part, above.part],
  };
  return left < nominalMm(spacer) / 2 ? placedError(found) : placedWarning(found);
}

/** What stays of two ends that meet; one thread stays free between them. */
function keptWhereTheyMeet(spacer: Spacer, a: number, b: number): readonly [number, number] {
  return shared(a, b, spacer.bodyMm - threadRow(spacer.thread).pitchMm);
}

/** The longer end gives way first; when both are longer than half the room each keeps half. */
function shared(a: number, b: number, room: number): readonly [number, number] {
  const half = room / 2;
  if (a <= half) return [a, Math.min(b, room - a)];
  if (b <= half) return [room - b, b];
  return [half, half];
}

/** Up to a tenth, which a file can hold; not beyond it by rounding. */
const upToTenths = (byMm: number): number => Math.ceil(byMm * 10 - 1e-6) / 10;

function trimWords(entry: Entry, byMm: number): string | undefined {
  if (byMm <= 1e-9) return undefined;
  const tenths = upToTenths(byMm);
  return entry.kind === 'stud'
    ? `trim ${mm(tenths)} off the stud of ${entry.part}`
    : `use a screw at least ${mm(tenths)} shorter than ${entry.part}`;
}

function enough(spacer: Spacer, leftMm: number): string {
  const least = leastThreads(spacer.material) * nominalMm(spacer);
  return leftMm < least - 1e-9
    ? ` (${mm(least)} is the least that holds in ${spacer.material.name}: a longer spacer is better)`
    : '';
}

function entryFinding({ spacer }: ThreadedSpacer, entry: Entry, at: Point3): Finding[] {
  const inMm = goesInMm(entry);
  const about = { path: entry.path, at, parts: [spacer.id, entry.part] };
  const value = `${nameOf(entry)}, ${mm(entry.lengthMm)} long,`;
  const depth = spacer.threadDepthMm;
  if (inMm > depth + 1e-9) {
    const { pitchMm } = threadRow(spacer.thread);
    const left = depth - pitchMm;
    const found = {
      ...about,
      code: 'stud-bottoms',
      value,
      allowed: `goes ${mm(inMm)} into the ${spacer.id} spacer, whose thread is ${mm(depth)} deep: it bottoms before the sheet is clamped`,
      remedy: `${trimWords(entry, inMm - left)}, which leaves ${mm(left)} of thread${enough(spacer, left)}`,
    };
    return [left < nominalMm(spacer) / 2 ? placedError(found) : placedWarning(found)];
  }
  const least = leastThreads(spacer.material) * nominalMm(spacer);
  if (inMm >= least - 1e-9 || (entry.kind === 'screw' && inMm < nominalMm(spacer))) return [];
  const found = {
    ...about,
    value,
    allowed: `leaves ${mm(Math.max(0, inMm))} in the thread of the ${spacer.id} spacer; ${mm(least)} is the least in ${spacer.material.name} (shop rule)`,
    remedy: 'use a longer one, or a thinner sheet between',
  };
  return [
    inMm <= 0 ? placedError({ ...found, code: 'stud-too-short' }) : placedWarning({ ...found, code: 'little-thread' }),
  ];
}

/** A nut that is full but ends flush with its stud: one thread should stand out (shop rule, memory). */
function nutFindings(assembly: Assembly, centre: { readonly x: number; readonly y: number }): Finding[] {
  const { nut, thread } = assembly.design.hardware;
  const { pitchMm } = threadRow(thread);
  return nutEnds(assembly).flatMap(({ part, path, restMm, zMm }) => {
    const out = restMm - nut.heightMm;
    if (out < -1e-9 || out >= pitchMm - 1e-9) return [];
    return [
      placedWarning({
        code: 'nut-without-thread-out',
        path,
        value: `${mm(restMm)} of stud left`,
        allowed: `stands ${mm(out)} out of a nut ${mm(nut.heightMm)} high; one thread of ${mm(pitchMm)} should show`,
        remedy: 'use a longer stud, a thinner washer or a thin nut',
        at: { ...centre, z: zMm },
        parts: [nut.id, part],
      }),
    ];
  });
}

const nominalMm = ({ thread }: Spacer): number => Number(thread.slice(1));

function nameOf({ kind, part }: Entry): string {
  return kind === 'stud' ? `the stud of ${part}` : `the screw ${part}`;
}
