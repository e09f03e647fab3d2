import { type FarFieldRequest, farField, type Mirror, radiatedPower } from './far-field.ts';
import { metalLoss, NO_METAL_FIELDS } from './metal-sampler.ts';
import type { Model } from './model.ts';
import { decibels, directionNet, makePattern } from './pattern.ts';
import type { Plan } from './plan-scene.ts';
import { wallName } from './planes.ts';
import { acceptedPower, availablePower, type PortSpectra, portSpectra } from './ports.ts';
import type { Run } from './run-port.ts';
import type { FarFieldResult } from './solution.ts';
import { DEFAULT_STEP_DEGREES, type SolveOptions } from './solve-options.ts';
import { AXES } from './update.ts';

function mirrorsOf({ model, symmetry }: Plan): { mirrors: Mirror[]; copies: number; half: boolean } {
  const planes = AXES.flatMap((axis): Mirror[] => {
    const plane = symmetry[axis];
    return plane?.used ? [{ axis, at: plane.at, kind: plane.kind }] : [];
  });
  const walls = AXES.flatMap((axis) =>
    (['Low', 'High'] as const).flatMap((side): Mirror[] => {
      const wall = model.scene.walls?.[wallName(axis, side)];
      return wall ? [{ axis, at: wall.at, kind: wall.kind }] : [];
    }),
  );
  return { mirrors: [...planes, ...walls], copies: 2 ** planes.length, half: model.scene.walls?.zLow !== undefined };
}

/** The far fields of one run at all frequencies. */
export function farFieldsOf(plan: Plan, options: SolveOptions, run: Run): FarFieldResult[] {
  const { model } = plan;
  const { farFieldHz = [], stepDegrees = DEFAULT_STEP_DEGREES } = options;
  const { mirrors, copies, half } = mirrorsOf(plan);
  const { theta, phi, directions } = directionNet(stepDegrees, half);
  return farFieldHz.map((freqHz, n) => {
    const faces = run.samplers?.surface.fields[n] ?? [];
    const metal = run.samplers?.metal.fields[n] ?? NO_METAL_FIELDS;
    const request: FarFieldRequest = { grid: model.grid, faces, mirrors, freqHz, directions };
    const pattern = makePattern({ freqHz, port: run.port, theta, phi, fields: farField(request) });
    const spectra = portSpectra(run.traces, freqHz, run.tails);
    // The currents in metal are not continued: they are compared with what the ports gave until then.
    const recorded = portSpectra(run.traces, freqHz);
    const radiated = copies * radiatedPower(model.grid, faces);
    return farFieldResult(run, { pattern, spectra, recorded, radiated, lost: metalLoss(model, metal, freqHz), model });
  });
}

interface FarFieldParts {
  readonly pattern: FarFieldResult['pattern'];
  readonly spectra: PortSpectra;
  readonly recorded: PortSpectra;
  readonly radiated: number;
  readonly lost: number;
  readonly model: Model;
}

function farFieldResult({ port }: Run, parts: FarFieldParts): FarFieldResult {
  const { pattern, spectra, recorded, radiated, lost, model } = parts;
  const accepted = acceptedPower(spectra);
  const resistance = model.scene.ports[port]?.resistance ?? 1;
  const available = availablePower(spectra, port, resistance);
  const metal = lost / acceptedPower(recorded);
  // The fields are those of perfect metal: the loss comes on top of what they accept.
  const efficiency = Math.min(1, radiated / accepted) / (1 + metal);
  const gainDbi = pattern.directivityDbi + decibels(efficiency);
  return {
    pattern,
    balance: { freqHz: pattern.freqHz, port, radiated: radiated / accepted, metal, rest: 1 - radiated / accepted },
    efficiency,
    gainDbi,
    realisedGainDbi: gainDbi + decibels(acceptedPower(spectra) / available),
  };
}
