import type { Port, Sheet, Wire } from '@sheetwave/field';
import type { Assembly, Point } from '@sheetwave/geometry';
import type { FeedModel } from '../prediction.ts';
import { metres, planePoint, position } from './lengths.ts';
import type { SceneLevel } from './levels.ts';
import { rodUndersideMm } from './rods.ts';
import type { ScenePart } from './scene-parts.ts';

const COPPER_SM = 58e6;

/** Pins thinner than the cells are wires; where the cells are too small for that, round bodies. */
export type PinModel = 'wire' | 'body';

export interface FeedRequest {
  readonly feed: FeedModel;
  readonly pins: PinModel;
  /** Cells across the gap under a line: the port takes the first of them. */
  readonly cellsAcrossGap: number;
}

export interface Feeds {
  readonly parts: readonly ScenePart[];
  readonly ports: readonly { readonly name: string; readonly element: number | undefined }[];
}

/**
 * Where the power comes in: at the coax through the reflector, or at the foot of every element. The gap between reflector and pin
 * is the port; the pin leads on from it.
 */
export function feedsOf(assembly: Assembly, levels: readonly SceneLevel[], request: FeedRequest): Feeds {
  if (request.feed === 'as-built') {
    const part = coaxFeed(assembly, levels, request);
    return { parts: [part], ports: [{ name: 'coax', element: undefined }] };
  }
  const parts = assembly.elements.map(({ feedPoint }, n) =>
    elementFeed(assembly, levels, { ...request, name: `element-${n}`, at: feedPoint }),
  );
  return { parts, ports: assembly.elements.map((_, element) => ({ name: `element-${element}`, element })) };
}

function coaxFeed(assembly: Assembly, levels: readonly SceneLevel[], request: FeedRequest): ScenePart {
  const { design, coaxPoint } = assembly;
  const { harness } = design;
  const place = { ...request, name: 'coax', at: coaxPoint };
  const pin = {
    ...place,
    path: 'coax',
    diameterMm: design.coax.coax.pinMm,
    referenceOhm: design.coax.coax.impedanceOhm,
  };
  switch (harness.kind) {
    case 'none':
      return elementFeed(assembly, levels, place);
    case 'microstrip':
      return feedPart({ ...pin, portMm: lineMm(assembly), toMm: lineMm(assembly), pins: 'body' });
    case 'strip':
      return lineFeed(pin, harness.heightMm);
    case 'rod':
      return lineFeed(pin, rodUndersideMm(assembly));
  }
}

/**
 * The pin of the coax under a line: the cells there are smaller than the pin. Its end over so small a gap is some hundredths of a
 * picofarad, whatever the gap; a gap of its own on every grid would cost half as many steps again.
 */
const lineFeed = (pin: Omit<PinAndPort, 'portMm' | 'toMm'>, undersideMm: number): ScenePart =>
  feedPart({ ...pin, portMm: undersideMm / pin.cellsAcrossGap, toMm: undersideMm, pins: 'body' });

function lineMm({ design }: Assembly): number {
  const { material } = design.reflector;
  if (material.kind !== 'board') throw new Error('lines are etched on a board');
  return material.laminate.thicknessMm;
}

type PlacedFeed = FeedRequest & { readonly name: string; readonly at: Point };

/** A probe from the reflector to the driven patch, or a port under the edge of an etched one. */
function elementFeed(assembly: Assembly, levels: readonly SceneLevel[], request: PlacedFeed): ScenePart {
  const { design } = assembly;
  const [driven] = levels;
  if (!driven) throw new Error('a design has at least one layer');
  const pinMm = design.feed.kind === 'probe' ? design.feed.probeDiameterMm : design.coax.coax.pinMm;
  const portMm = design.feed.kind === 'probe' ? Math.min(FOOT_MM, driven.metalMm) : driven.metalMm;
  const referenceOhm = design.coax.coax.impedanceOhm;
  const isProbe = design.feed.kind === 'probe';
  return feedPart({ ...request, path: 'feed', isProbe, portMm, toMm: driven.metalMm, diameterMm: pinMm, referenceOhm });
}

/**
 * Height of the port at the foot of a probe: about the gap between pin and shield of the coax that ends there. On every grid the
 * same, so that the impedance tends to one value; a patch that lies lower has a port all the way.
 */
const FOOT_MM = 2;

interface PinAndPort extends PlacedFeed {
  readonly path: string;
  /** Height of the port over the reflector, mm. */
  readonly portMm: number;
  /** Where the pin ends, mm. */
  readonly toMm: number;
  readonly diameterMm: number;
  readonly referenceOhm: number;
  /** Whether a port that reaches all the way stands for a pin of this diameter. */
  readonly isProbe?: boolean;
}

function feedPart(feed: PinAndPort): ScenePart {
  const { name, at, path, portMm, toMm, diameterMm, referenceOhm, pins, isProbe = false } = feed;
  const port: Port = {
    name,
    from: position({ ...at, z: 0 }),
    to: position({ ...at, z: portMm }),
    resistance: referenceOhm,
    ...(pins === 'wire' && (isProbe || toMm > portMm) ? { radius: metres(diameterMm / 2) } : {}),
  };
  const ports = [port];
  if (toMm - portMm < 1e-6) return { path, ports };
  return pins === 'wire' ? { path, ports, wires: [pinWire(feed)] } : { path, ports, sheets: [pinBody(feed)] };
}

const pinWire = ({ name, at, portMm, toMm, diameterMm }: PinAndPort): Wire => ({
  name,
  from: position({ ...at, z: portMm }),
  to: position({ ...at, z: toMm }),
  radius: metres(diameterMm / 2),
  conductivity: COPPER_SM,
});

/** Two cells across a pin at `normal`. */
const PIN_RESOLUTION = 0.3;

const pinBody = ({ name, at, portMm, toMm, diameterMm }: PinAndPort): Sheet => ({
  name,
  normal: 'z',
  at: metres(portMm),
  thickness: metres(toMm) - metres(portMm),
  outline: { kind: 'disc', centre: planePoint(at), radius: metres(diameterMm / 2) },
  conductivity: COPPER_SM,
  resolution: PIN_RESOLUTION,
});
