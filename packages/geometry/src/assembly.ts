import type {
  Coax,
  Connector,
  Design,
  Laminate,
  Nut,
  Process,
  Rod,
  Screw,
  Sheet,
  Spacer,
  Tube,
  Washer,
} from '@sheetwave/design';
import type { Contour, Mark, Outline, Point } from './outline.ts';

/** x right, y up (seen from in front), z outward from the reflector's front face; mm. */
export interface Point3 extends Point {
  readonly z: number;
}

interface PartBase {
  /** Unique in the assembly and safe as a file name: `patch-driven`, `reflector`. */
  readonly id: string;
  /** For people: `driven patch`. */
  readonly name: string;
  /** How many of it one antenna takes. */
  readonly quantity: number;
}

/** Cut from sheet metal. Its own plane: seen from in front, centre of the patch or the array at (0, 0). */
export interface PlatePart extends PartBase {
  readonly form: 'plate';
  readonly role: 'patch' | 'reflector' | 'strip';
  readonly sheet: Sheet;
  /** True when the rolling direction of the sheet must run along y of the part: it is then never turned on its sheet. */
  readonly keepsGrain?: boolean;
  readonly outline: Outline;
  readonly marks: readonly Mark[];
  readonly process: Process;
}

/** Painted in order: a clear piece removes what is below it, a dark one adds. */
export interface CopperPiece {
  readonly purpose: 'patch' | 'line' | 'land' | 'plane' | 'clearance';
  readonly polarity: 'dark' | 'clear';
  readonly contour: Contour;
}

/** A printed board. `top` is the side away from the reflector's back (toward the sky), seen from in front, never mirrored. */
export interface BoardPart extends PartBase {
  readonly form: 'board';
  readonly role: 'patch' | 'reflector';
  readonly laminate: Laminate;
  readonly outline: Outline;
  readonly copper: { readonly top: readonly CopperPiece[]; readonly bottom: readonly CopperPiece[] };
  /** Where there is no solder mask: over radiators, lines and lands. */
  readonly maskOpenings: { readonly top: readonly Contour[]; readonly bottom: readonly Contour[] };
  readonly marks: readonly Mark[];
  readonly process: Process;
}

/** Round rod, bent cold. */
export interface RodPart extends PartBase {
  readonly form: 'rod';
  readonly role: 'harness' | 'probe';
  readonly rod: Rod;
  /** Corners of its centre line before rounding, in the frame of its placement, mm. At least two. */
  readonly corners: readonly Point3[];
  /** Inside radius of every bend, mm. */
  readonly bendRadiusMm: number;
  /** In order along the rod; `atMm` is the distance along the straight blank to the middle of the bend. */
  readonly bends: readonly { readonly atMm: number; readonly angleDeg: number; readonly twistDeg: number }[];
  /** Length to cut the blank. */
  readonly developedLengthMm: number;
}

/** A tube slid over a rod: an impedance-transforming section. */
export interface TubePart extends PartBase {
  readonly form: 'tube';
  readonly role: 'section';
  readonly tube: Tube;
  readonly lengthMm: number;
}

/** A printed tube of exactly this height around a screw. */
export interface PrintedSpacerPart extends PartBase {
  readonly form: 'printed-spacer';
  readonly heightMm: number;
  readonly outerMm: number;
  /** Clearance hole for the thread, before the printer's hole allowance. */
  readonly boreMm: number;
}

/** Bought and used as it is; `lengthMm` for what is cut from a length (coax). */
export interface BoughtPart extends PartBase {
  readonly form: 'bought';
  readonly item: Spacer | Screw | Nut | Washer | Coax | Connector;
  readonly lengthMm: number | undefined;
}

export type Part = PlatePart | BoardPart | RodPart | TubePart | PrintedSpacerPart | BoughtPart;

/** Where one piece of a part sits. Turned about z by `turnDeg` (counter-clockwise), then moved to `at`. */
export interface Placement {
  readonly part: string;
  /** Plates and boards: the underside's z. Hardware: its lowest z. Rods: the origin of their corners. */
  readonly at: Point3;
  readonly turnDeg: number;
  /** Index into `elements`; undefined for what is not part of one element. */
  readonly element: number | undefined;
  /** Index into `design.layers` for patches and what carries them. */
  readonly layer: number | undefined;
}

/** One radiating element of the array: the common centre of its stack. */
export interface Element {
  readonly row: number;
  readonly column: number;
  readonly centre: Point;
  /** Where the probe or line meets the driven patch, in antenna coordinates. */
  readonly feedPoint: Point;
}

/** One uniform piece of the harness, as the estimate and the field scene need it. */
export interface HarnessRun {
  /** 0 is nearest the coax. */
  readonly level: number;
  readonly from: Point;
  readonly to: Point;
  readonly lengthMm: number;
  /** Rod or tube outside diameter, or strip width. */
  readonly sizeMm: number;
  readonly role: 'line' | 'section';
}
/** From one junction to its two children: arms are equal by construction, so one arm's runs are listed from the junction outward. */
export interface HarnessSplit {
  readonly level: number;
  readonly at: Point;
  readonly arms: readonly (readonly HarnessRun[])[];
}

/** Where a layer lies above the reflector's front face (for a board: above the inner face of its bottom copper). */
export interface LayerHeight {
  /** The metal that radiates. */
  readonly undersideMm: number;
  readonly topMm: number;
  /** The sheet or board that carries the metal; what the spacer below and the fixing above touch. */
  readonly bodyUndersideMm: number;
  readonly bodyTopMm: number;
}

export interface Assembly {
  readonly design: Design;
  readonly parts: readonly Part[];
  readonly placements: readonly Placement[];
  readonly elements: readonly Element[];
  /** Outward from the reflector, one for each of `design.layers`. */
  readonly layerHeights: readonly LayerHeight[];
  readonly reflector: { readonly widthMm: number; readonly heightMm: number; readonly thicknessMm: number };
  /** Where the coax comes through. */
  readonly coaxPoint: Point;
  readonly harness: readonly HarnessSplit[];
  /** Why the reflector has its size, in words with numbers. */
  readonly reflectorRule: string;
}
