import type { Design } from '@sheetwave/design';
import type { Assembly, HarnessRun, HarnessSplit } from '@sheetwave/geometry';
import {
  airStripLineImpedance,
  type Complex,
  complex,
  divide,
  type Estimate,
  type FeedNode,
  type LineConstants,
  lossyStripLine,
  multiply,
  propagationConstant,
  rodAttenuation,
  rodImpedance,
  stripConductorAttenuation,
  stripImpedance,
  subtract,
} from '@sheetwave/rf';
import { surfaceOhm } from './driven-patch.ts';

const ROLLED = { roughnessM: 0.3e-6 };
const FOIL = { conductivity: 58e6, roughnessM: 1.5e-6 };

/** What a harness line of a given size (rod or tube diameter, strip width; mm) is at one frequency. */
export interface HarnessLine {
  readonly impedance: Estimate;
  readonly constants: LineConstants;
}

/** Impedance, velocity and loss of one size of line of this design's harness. */
export function harnessLine(design: Design, sizeMm: number, freqHz: number): HarnessLine {
  const { harness, reflector } = design;
  switch (harness.kind) {
    case 'none':
      throw new Error('one element straight at its coax has no harness');
    case 'rod': {
      const rod = { diameterM: sizeMm / 1000, centreM: harness.heightMm / 1000, permittivity: 1 };
      const conductivity = harness.levels[0]?.rod.material.conductivitySm ?? FOIL.conductivity;
      const impedance = rodImpedance(rod);
      const attenuation = rodAttenuation(rod, surfaceOhm({ ...ROLLED, conductivity }, freqHz));
      return { impedance, constants: { z0Ohm: impedance.value, effectivePermittivity: 1, attenuation } };
    }
    case 'strip': {
      const strip = {
        widthM: sizeMm / 1000,
        heightM: harness.heightMm / 1000,
        thicknessM: harness.sheet.thicknessMm / 1000,
      };
      const impedance = airStripLineImpedance(strip);
      const surface = surfaceOhm({ ...ROLLED, conductivity: harness.sheet.material.conductivitySm }, freqHz);
      const attenuation = stripConductorAttenuation(
        { ...strip, permittivity: 1 },
        { z0Ohm: impedance.value, surfaceOhm: surface },
      );
      return { impedance, constants: { z0Ohm: impedance.value, effectivePermittivity: 1, attenuation } };
    }
    case 'microstrip': {
      if (reflector.material.kind !== 'board') throw new Error('microstrip needs a board');
      const { laminate } = reflector.material;
      const section = {
        widthM: sizeMm / 1000,
        heightM: laminate.thicknessMm / 1000,
        thicknessM: laminate.copperMm / 1000,
        permittivity: laminate.permittivity,
      };
      const loss = { lossTangent: laminate.lossTangent, surfaceOhm: surfaceOhm(FOIL, freqHz) };
      return { impedance: stripImpedance(section, freqHz), constants: lossyStripLine(section, freqHz, loss) };
    }
  }
}

/** The harness as a tree of lines that ends in one load per element. Undefined when there is no harness. */
export function feedTree(assembly: Assembly, load: (freqHz: number) => Complex): FeedNode | undefined {
  const [root] = assembly.harness;
  if (!root) return undefined;
  const next = new Map(assembly.harness.map((split) => [placeKey(split.level, split.at), split]));
  return splitNode(assembly.design, root, { next, load });
}

interface TreeContext {
  readonly next: ReadonlyMap<string, HarnessSplit>;
  readonly load: (freqHz: number) => Complex;
}

function splitNode(design: Design, split: HarnessSplit, context: TreeContext): FeedNode {
  const children = split.arms.map((arm): FeedNode => {
    const end = arm.at(-1)?.to;
    const below = end && context.next.get(placeKey(split.level + 1, end));
    const last: FeedNode = below ? splitNode(design, below, context) : { kind: 'load', impedance: context.load };
    return arm.reduceRight((child, run) => lineNode(design, run, child), last);
  });
  return children.length === 1 && children[0] ? children[0] : { kind: 'junction', children };
}

function lineNode(design: Design, run: HarnessRun, child: FeedNode): FeedNode {
  // Impedance is taken at the band's middle: over a band of some per cent it moves far less than its own error.
  const middleHz = bandCentreHz(design);
  const { constants } = harnessLine(design, run.sizeMm, middleHz);
  return {
    kind: 'line',
    z0Ohm: constants.z0Ohm,
    lengthM: run.lengthMm / 1000,
    gamma: (freqHz) => propagationConstant(constants, freqHz),
    child,
  };
}

function placeKey(level: number, at: { readonly x: number; readonly y: number }): string {
  return `${level}:${at.x.toFixed(4)}:${at.y.toFixed(4)}`;
}

export function bandCentreHz({ band }: Design): number {
  return (band.lowHz + band.highHz) / 2;
}

/**
 * What every element must show at its feed point for the coax to see its own impedance: the harness walked backward,
 * doubling at each junction and undoing each line, Z_load = Z0 (Z - j Z0 tan(bl)) / (Z0 - j Z tan(bl)), without loss
 * (the inverse of Pozar, Microwave Engineering, 4th ed., eq. 2.44).
 */
export function wantedElementImpedance(assembly: Assembly, freqHz: number): Complex | undefined {
  const { design } = assembly;
  const [root] = assembly.harness;
  if (!root) return undefined;
  let wanted = complex(design.coax.coax.impedanceOhm);
  let split: HarnessSplit | undefined = root;
  while (split) {
    const arm: readonly HarnessRun[] = split.arms[0] ?? [];
    wanted = complex(wanted.re * split.arms.length, wanted.im * split.arms.length);
    for (const run of arm) wanted = beforeLine(wanted, run, { design, freqHz });
    const end = arm.at(-1)?.to;
    const level: number = split.level + 1;
    split = end && assembly.harness.find((other) => placeKey(other.level, other.at) === placeKey(level, end));
  }
  return wanted;
}

function beforeLine(seen: Complex, run: HarnessRun, { design, freqHz }: { design: Design; freqHz: number }): Complex {
  const { constants } = harnessLine(design, run.sizeMm, freqHz);
  const z0 = complex(constants.z0Ohm);
  const tangent = complex(0, Math.tan(propagationConstant(constants, freqHz).im * (run.lengthMm / 1000)));
  return multiply(z0, divide(subtract(seen, multiply(z0, tangent)), subtract(z0, multiply(seen, tangent))));
}

/** Loss from the coax to an element along one arm of each level, dB, when every line is matched: the least it can be. */
export function matchedHarnessLossDb(assembly: Assembly, freqHz: number): number {
  const levels = new Map<number, readonly HarnessRun[]>();
  for (const split of assembly.harness) levels.set(split.level, split.arms[0] ?? []);
  const nepers = [...levels.values()]
    .flat()
    .reduce(
      (sum, run) =>
        sum + harnessLine(assembly.design, run.sizeMm, freqHz).constants.attenuation * (run.lengthMm / 1000),
      0,
    );
  return nepers * 20 * Math.LOG10E;
}

/** Distinct sizes of line, from the coax outward, with their length on one arm. */
export function harnessRuns(assembly: Assembly): readonly {
  readonly level: number;
  readonly sizeMm: number;
  readonly lengthMm: number;
  readonly role: HarnessRun['role'];
}[] {
  const seen = new Map<string, { level: number; sizeMm: number; lengthMm: number; role: HarnessRun['role'] }>();
  const levels = new Set<number>();
  for (const split of assembly.harness) {
    if (levels.has(split.level)) continue;
    levels.add(split.level);
    for (const run of split.arms[0] ?? []) {
      const key = `${run.level}:${run.sizeMm}:${run.role}`;
      const known = seen.get(key);
      seen.set(key, {
        level: run.level,
        sizeMm: run.sizeMm,
        role: run.role,
        lengthMm: (known?.lengthMm ?? 0) + run.lengthMm,
      });
    }
  }
  return [...seen.values()];
}
