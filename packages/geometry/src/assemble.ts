import type { Design, Finding, Harness } from '@sheetwave/design';
import type { Assembly, Element, HarnessSplit, LayerHeight, Part, Placement } from './assembly.ts';
import { coaxParts } from './coax-parts.ts';
import { fastenerParts, stackFasteners } from './fasteners.ts';
import { errorFinding, mm } from './finding.ts';
import { stripHarness } from './harness-flat.ts';
import { rodHarness, rodRunRules } from './harness-rod.ts';
import { type RunRules, runsOfWay, wayLength } from './harness-runs.ts';
import { corporateTree, type HarnessTree, leadToPatch, star, treeFindings } from './harness-tree.ts';
import { elementTurnDeg, latticeElements } from './lattice.ts';
import type { Point } from './outline.ts';
import { patchPart } from './patches.ts';
import { foldErrors, foldFindings } from './reflector/fold-findings.ts';
import { addedHoles, reflectorPart } from './reflector.ts';
import { minimumReflector, sizeErrors } from './reflector-size.ts';
import { shapeFindings } from './shape-findings.ts';
import { solderFindings } from './solderable.ts';
import { reflectorBodyThicknessMm, reflectorUndersideMm, stackHeights } from './stack-heights.ts';

export interface Assembled {
  /** Undefined when a finding is an error: there is nothing that could be made. */
  readonly assembly: Assembly | undefined;
  readonly findings: readonly Finding[];
}

/**
 * Works out every part that a design asks for, and where each sits.
 *
 * @returns the assembly, or the errors that only show once parts meet (studs, bends, lines on top of each other).
 *   `validate` then holds the assembly against what "right" means.
 */
export function assemble(design: Design): Assembled {
  const shapes = shapeFindings(design);
  if (shapes.length > 0) return { assembly: undefined, findings: shapes };
  const heights = stackHeights(design);
  const driven = heights[0];
  if (!driven) throw new Error('a design has at least one layer');
  const elements = latticeElements(design);
  const joined = joinElements(design, elements);
  if (joined.findings.some((finding) => finding.severity === 'error'))
    return { assembly: undefined, findings: joined.findings };

  const pieces = [
    stackParts(design, elements, heights),
    harnessParts(design, joined, driven),
    coaxParts(design, joined.tree.coaxPoint, driven.topMm),
  ];
  const findings = [
    ...joined.findings,
    ...solderFindings(design),
    ...pieces.flatMap((piece) => ('findings' in piece ? piece.findings : [])),
  ];
  if (findings.some((finding) => finding.severity === 'error')) return { assembly: undefined, findings };

  const size = reflectorSize(design, elements, joined);
  const unmakable = [...sizeErrors(design, size), ...foldErrors(design, size)];
  if (unmakable.length > 0) return { assembly: undefined, findings: [...findings, ...unmakable] };
  const layout = { design, elements, splits: joined.splits, coaxPoint: joined.tree.coaxPoint, ...size };
  const reflector = reflectorPart(layout);
  findings.push(...addedHoles(layout).findings, ...foldFindings(design, size, reflector.outline.holes));
  if (findings.some((finding) => finding.severity === 'error')) return { assembly: undefined, findings };
  const reflectorPlace: Placement = {
    part: reflector.id,
    at: { x: 0, y: 0, z: reflectorUndersideMm(design) },
    turnDeg: 0,
    element: undefined,
    layer: undefined,
  };
  const assembly: Assembly = {
    design,
    parts: [reflector, ...pieces.flatMap((piece): readonly Part[] => piece.parts)],
    placements: [reflectorPlace, ...pieces.flatMap((piece) => piece.placements)],
    elements,
    layerHeights: heights,
    reflector: { widthMm: size.widthMm, heightMm: size.heightMm, thicknessMm: reflectorBodyThicknessMm(design) },
    coaxPoint: joined.tree.coaxPoint,
    harness: joined.splits,
    reflectorRule: size.rule,
  };
  return { assembly, findings };
}

type JoiningHarness = Exclude<Harness, { kind: 'none' }>;

interface Joined {
  readonly tree: HarnessTree;
  readonly splits: readonly HarnessSplit[];
  readonly findings: readonly Finding[];
}

function joinElements(design: Design, elements: readonly Element[]): Joined {
  const { harness } = design;
  const [first] = elements;
  if (!first) throw new Error('an array has at least one element');
  if (harness.kind === 'none') return { tree: { junctions: [], coaxPoint: first.feedPoint }, splits: [], findings: [] };
  const tree = harnessTree(design, harness, elements);
  const splits = tree.junctions.map(
    (junction): HarnessSplit => ({
      level: junction.level,
      at: junction.at,
      arms: junction.ways.map((way) => runsOfWay(way, runRules(harness, junction.level))),
    }),
  );
  const overlaps = harness.topology === 'star' ? [] : treeFindings(harness.levels, leastStemMm(harness));
  return { tree, splits, findings: [...overlaps, ...sectionFindings(harness, tree)] };
}

/** Sections that are longer than the arm they are on. */
function sectionFindings(harness: JoiningHarness, tree: HarnessTree): Finding[] {
  return harness.levels.flatMap((_, level) => {
    const { section } = runRules(harness, level);
    const way = tree.junctions.find((junction) => junction.level === level)?.ways[0];
    if (!section || !way || section.lengthMm + section.clearMm <= wayLength(way)) return [];
    return [
      errorFinding('section-does-not-fit', `harness.level[${level}].section.length`, {
        value: mm(section.lengthMm),
        allowed: `is longer than its arm allows, ${mm(wayLength(way) - section.clearMm)}`,
        remedy: 'shorten the section, or lengthen the arm by a wider pitch or a stem',
      }),
    ];
  });
}

function harnessTree(design: Design, harness: JoiningHarness, elements: readonly Element[]): HarnessTree {
  if (harness.topology === 'star') return star(elements);
  if (harness.kind === 'microstrip' && harness.lead) return leadToPatch(design, elements, harness.lead.lengthMm);
  return corporateTree(design, elements, harness.levels);
}

function runRules(harness: JoiningHarness, level: number): RunRules {
  if (harness.kind === 'rod') return rodRunRules(harness, level);
  if (harness.kind === 'microstrip' && harness.lead) return { level, sizeMm: harness.lead.widthMm, section: undefined };
  const rules = harness.levels[level];
  if (!rules) throw new RangeError(`no level ${level}`);
  const section = rules.section && {
    at: rules.section.at,
    lengthMm: rules.section.lengthMm,
    sizeMm: rules.section.widthMm,
    clearMm: 0,
  };
  return { level, sizeMm: rules.widthMm, section };
}

/** Two parallel lines keep three line widths between their axes, so that they hardly couple (common practice, no source). */
function leastStemMm(harness: JoiningHarness): number {
  const sizes =
    harness.kind === 'rod'
      ? harness.levels.map((level) => level.rod.diameterMm)
      : harness.levels.map((level) => level.widthMm);
  return 3 * Math.max(0, ...sizes);
}

function stackParts(design: Design, elements: readonly Element[], heights: readonly LayerHeight[]) {
  const turnDeg = elementTurnDeg(design.lattice.orientation);
  const patches = design.layers.flatMap((_, index) => patchPart(design, index) ?? []);
  const patchPlaces = design.layers.flatMap((_, layer) => {
    const part = patchPart(design, layer);
    const height = heights[layer];
    if (!part || !height) return [];
    return elements.map(
      ({ centre }, element): Placement => ({
        part: part.id,
        at: { ...centre, z: height.bodyUndersideMm },
        turnDeg,
        element,
        layer,
      }),
    );
  });
  const fasteners = stackFasteners(design, heights);
  const held = fastenerParts(fasteners.pieces, elements);
  return {
    parts: [...patches, ...held.parts],
    placements: [...patchPlaces, ...held.placements],
    findings: fasteners.findings,
  };
}

function harnessParts(design: Design, joined: Joined, driven: LayerHeight) {
  if (design.harness.kind === 'rod') {
    const { rods, tubes, placements, findings } = rodHarness(design, joined.tree, driven);
    return { parts: [...rods, ...tubes], placements, findings };
  }
  if (design.harness.kind === 'strip') return stripHarness(design, joined.splits, driven.topMm);
  return { parts: [], placements: [], findings: [] };
}

function reflectorSize(design: Design, elements: readonly Element[], joined: Joined) {
  const harnessPoints: Point[] = [
    joined.tree.coaxPoint,
    ...joined.splits.flatMap((split) => split.arms.flat()).flatMap((run) => [run.from, run.to]),
  ];
  const minimum = minimumReflector(design, elements, harnessPoints);
  const { size } = design.reflector;
  if (size === 'minimum') return minimum;
  return {
    ...size,
    rule: `given in the design; the rule asks for ${minimum.widthMm} x ${minimum.heightMm} mm: ${minimum.rule}`,
  };
}
