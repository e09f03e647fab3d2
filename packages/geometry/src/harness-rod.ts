import type { Design, Finding, Harness } from '@sheetwave/design';
import type { LayerHeight, Placement, Point3, RodPart, TubePart } from './assembly.ts';
import { errorFinding, mm } from './finding.ts';
import { type RunRules, runsOfWay, wayLength } from './harness-runs.ts';
import type { HarnessTree, Junction, Way } from './harness-tree.ts';
import { bendRod, withoutCollinear } from './rod-bends.ts';

type RodHarness = Extract<Harness, { kind: 'rod' }>;

/** How far a probe stands out of the driven patch, to be soldered. */
export const PROBE_PROTRUSION_MM = 0.5;
/** Bare rod left at a joint, so that the solder reaches the rod and not the tube. */
const BARE_AT_JOINT_MM = 1;

export interface HarnessParts {
  readonly rods: readonly RodPart[];
  readonly tubes: readonly TubePart[];
  readonly placements: readonly Placement[];
  readonly findings: readonly Finding[];
}

interface Context {
  readonly design: Design;
  readonly harness: RodHarness;
  /** Height above the rod axis at which a probe ends. */
  readonly probeTopMm: number;
}

/**
 * Rods and tubes of a harness. A level's rods are alike: one bent rod a junction, from child to child, whose ends
 * either rise into the driven patch as probes (outermost level) or butt against the rod of the next level.
 */
export function rodHarness(design: Design, tree: HarnessTree, driven: LayerHeight): HarnessParts {
  const { harness } = design;
  if (harness.kind !== 'rod') throw new Error(`the harness is a ${harness.kind}, not rods`);
  const context: Context = { design, harness, probeTopMm: driven.topMm + PROBE_PROTRUSION_MM - harness.heightMm };
  const parts = harness.levels.map((_, level) =>
    levelParts(
      context,
      level,
      tree.junctions.filter((junction) => junction.level === level),
    ),
  );
  return {
    rods: parts.map((part) => part.rod),
    tubes: parts.flatMap((part) => part.tubes),
    placements: parts.flatMap((part) => part.placements),
    findings: [...probeFindings(context), ...parts.flatMap((part) => part.findings)],
  };
}

function levelParts(context: Context, level: number, junctions: readonly Junction[]) {
  const [first] = junctions;
  if (!first) throw new Error(`no junction on level ${level}`);
  const { harness } = context;
  const rules = levelRules(harness, level);
  const starRods = harness.topology === 'star';
  const corners = starRods ? starCorners(context, first) : treeCorners(context, level, first);
  const bent = bendRod(corners, rules.rod.diameterMm, harness.bendRadiusMm);
  const id = `rod-level-${level}`;
  const pieces = junctions.flatMap((junction) =>
    starRods ? starPlaces(junction, harness.heightMm) : [place(junction, harness.heightMm)],
  );
  const rod: RodPart = {
    id,
    name: level === 0 ? 'harness rod at the coax' : `harness rod, level ${level}`,
    quantity: pieces.length,
    form: 'rod',
    role: 'harness',
    rod: rules.rod,
    corners,
    bendRadiusMm: harness.bendRadiusMm,
    bends: bent.bends,
    developedLengthMm: bent.developedLengthMm,
  };
  const section = sectionParts(context, level, junctions);
  return {
    rod,
    tubes: section.tubes,
    placements: [
      ...pieces.map((piece) => ({ part: id, element: undefined, layer: undefined, ...piece })),
      ...section.placements,
    ],
    findings: [...bent.shortLegs.map((leg) => shortLegFinding(level, leg, harness)), ...section.findings],
  };
}

function levelRules(harness: RodHarness, level: number) {
  const rules = harness.levels[level];
  if (!rules) throw new RangeError(`no level ${level} in the harness`);
  return rules;
}

function place(junction: Junction, z: number): { at: Point3; turnDeg: number } {
  return { at: { ...junction.at, z }, turnDeg: 0 };
}

/** A star's rods are one part turned about the coax. */
function starPlaces(junction: Junction, z: number): { at: Point3; turnDeg: number }[] {
  return junction.ways.map((way) => ({ at: { ...junction.at, z }, turnDeg: wayTurnDeg(way) }));
}

function wayTurnDeg(way: Way): number {
  const [from, to] = way;
  if (!from || !to) throw new RangeError('a way needs two points');
  return (Math.atan2(to.y - from.y, to.x - from.x) * 180) / Math.PI;
}

function starCorners(context: Context, junction: Junction): Point3[] {
  const [way] = junction.ways;
  if (!way) throw new Error('a star without ways');
  const length = wayLength(way);
  return [
    { x: context.design.coax.coax.pinMm / 2, y: 0, z: 0 },
    { x: length, y: 0, z: 0 },
    { x: length, y: 0, z: context.probeTopMm },
  ];
}

function treeCorners(context: Context, level: number, junction: Junction): Point3[] {
  const [first, second] = junction.ways;
  if (!first || !second) throw new Error('a junction of a tree has two ways');
  const outermost = level === context.harness.levels.length - 1;
  const buttMm = outermost ? 0 : levelRules(context.harness, level + 1).rod.diameterMm / 2;
  const arm = (way: Way): Point3[] => {
    const flat = shortenEnd(way, buttMm).map((point) => ({
      x: point.x - junction.at.x,
      y: point.y - junction.at.y,
      z: 0,
    }));
    const end = flat.at(-1);
    return outermost && end ? [...flat, { ...end, z: context.probeTopMm }] : flat;
  };
  return withoutCollinear(tidy([...arm(first).reverse(), ...arm(second).slice(1)]));
}

/** Differences of lattice sums leave dust such as 1e-15; a micrometre grid keeps equal rods equal. */
function tidy(corners: readonly Point3[]): Point3[] {
  const clean = (value: number): number => Math.round(value * 1e6) / 1e6 + 0;
  return corners.map(({ x, y, z }) => ({ x: clean(x), y: clean(y), z: clean(z) }));
}

function shortenEnd(way: Way, byMm: number): Way {
  const end = way.at(-1);
  const before = way.at(-2);
  if (!end || !before || byMm === 0) return way;
  const part = byMm / Math.hypot(end.x - before.x, end.y - before.y);
  return [...way.slice(0, -1), { x: end.x + (before.x - end.x) * part, y: end.y + (before.y - end.y) * part }];
}

/** Rod left bare between a tube and its end of the arm: to be soldered, or bent. */
function bareRodMm(harness: RodHarness, level: number): number {
  const { section, rod } = levelRules(harness, level);
  const bendsThere = section?.at === 'outer' && level === harness.levels.length - 1;
  return bendsThere ? harness.bendRadiusMm + rod.diameterMm / 2 : BARE_AT_JOINT_MM;
}

/** Sizes along the arms of one level of rods. */
export function rodRunRules(harness: RodHarness, level: number): RunRules {
  const { rod, section } = levelRules(harness, level);
  return {
    level,
    sizeMm: rod.diameterMm,
    section: section && {
      at: section.at,
      lengthMm: section.lengthMm,
      sizeMm: section.tube.outerMm,
      clearMm: bareRodMm(harness, level),
    },
  };
}

function sectionParts(context: Context, level: number, junctions: readonly Junction[]) {
  const { harness } = context;
  const { section, rod } = levelRules(harness, level);
  if (!section) return { tubes: [], placements: [], findings: [] };
  const id = `tube-level-${level}`;
  const placements: Placement[] = [];
  const findings: Finding[] = [];
  for (const way of junctions.flatMap((junction) => junction.ways)) {
    const [run, ...more] = runsOfWay(way, rodRunRules(harness, level)).filter((piece) => piece.role === 'section');
    if (!run || more.length > 0) {
      findings.push(bentSectionFinding(level, section.lengthMm));
      break;
    }
    placements.push({
      part: id,
      at: { ...run.from, z: harness.heightMm },
      turnDeg: wayTurnDeg([run.from, run.to]),
      element: undefined,
      layer: undefined,
    });
  }
  const tube: TubePart = {
    id,
    name: `tube over the level ${level} rod`,
    quantity: placements.length,
    form: 'tube',
    role: 'section',
    tube: section.tube,
    lengthMm: section.lengthMm,
  };
  if (section.tube.boreMm < rod.diameterMm) findings.push(boreFinding(level, section.tube.boreMm, rod.diameterMm));
  return { tubes: findings.length > 0 ? [] : [tube], placements: findings.length > 0 ? [] : placements, findings };
}

function bentSectionFinding(level: number, lengthMm: number): Finding {
  return errorFinding('section-crosses-bend', `harness.level[${level}].section.length`, {
    value: mm(lengthMm),
    allowed: 'would take the tube around a bend of the rod',
    remedy: 'shorten the section or move it to the other end (at)',
  });
}

function boreFinding(level: number, boreMm: number, rodMm: number): Finding {
  return errorFinding('tube-too-narrow', `harness.level[${level}].section.tube`, {
    value: `bore ${mm(boreMm)}`,
    allowed: `does not slide over the rod of ${mm(rodMm)}`,
    remedy: 'choose a tube with a wider bore, or a thinner rod',
  });
}

function shortLegFinding(level: number, leg: { haveMm: number; needMm: number }, harness: RodHarness): Finding {
  return errorFinding('leg-too-short', `harness.level[${level}]`, {
    value: `a leg of ${mm(leg.haveMm)}`,
    allowed: `is too short beside bends of inside radius ${mm(harness.bendRadiusMm)}, which need ${mm(leg.needMm)}`,
    remedy: 'make bend_radius smaller, lower the harness, or lengthen the stem',
  });
}

function probeFindings({ design, harness }: Context): Finding[] {
  const outermost = harness.levels.at(-1);
  if (!outermost || design.feed.kind !== 'probe') return [];
  const { probeDiameterMm, solderHoleMm } = design.feed;
  if (Math.abs(outermost.rod.diameterMm - probeDiameterMm) < 1e-6 && outermost.rod.diameterMm <= solderHoleMm)
    return [];
  return [
    errorFinding('probe-is-not-the-rod', 'feed.probe_diameter', {
      value: mm(probeDiameterMm),
      allowed: `must be the diameter of the outermost rods (${mm(outermost.rod.diameterMm)}), which are bent up into the patches as their probes, and must fit the solder hole of ${mm(solderHoleMm)}`,
      remedy: `write probe_diameter = "${mm(outermost.rod.diameterMm)}" with a larger solder_hole, or choose another rod for the outermost level`,
    }),
  ];
}
