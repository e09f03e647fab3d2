/** How sure a row is: seen in a published text, recalled from the named source, shop practice, or computed from a closed form. */
export type Certainty = 'confirmed' | 'memory' | 'common practice' | 'computed' | 'own';

/** One thing that can be bought. `id` is what a design names; `label` is what a parts list prints. */
export interface StockItem {
  readonly id: string;
  readonly label: string;
  /** Where the numbers come from; 'given in the design file' for own stock. */
  readonly source: string;
  readonly certainty: Certainty;
}

export interface Material {
  readonly name: string;
  readonly densityKgM3: number;
  /** Electrical conductivity in S/m; 0 for an insulator. */
  readonly conductivitySm: number;
}

export interface Sheet extends StockItem {
  readonly kind: 'sheet';
  readonly material: Material;
  readonly thicknessMm: number;
  /** Sizes sold, width × height in mm, small to large. */
  readonly sizesMm: readonly (readonly [number, number])[];
}
export interface Rod extends StockItem {
  readonly kind: 'rod';
  readonly material: Material;
  readonly diameterMm: number;
  /** Lengths sold. */
  readonly lengthsMm: readonly number[];
}
export interface Tube extends StockItem {
  readonly kind: 'tube';
  readonly material: Material;
  readonly outerMm: number;
  readonly boreMm: number;
  readonly lengthsMm: readonly number[];
}
/** `plain` is a bore the screw passes through. */
export type SpacerEnd = 'male' | 'female' | 'plain';
export interface Spacer extends StockItem {
  readonly kind: 'spacer';
  readonly material: Material;
  readonly thread: string;
  /** End toward the reflector, then the end outward. */
  readonly ends: readonly [SpacerEnd, SpacerEnd];
  /** The height it gives between two sheets. */
  readonly bodyMm: number;
  /** Length of a male stud; 0 when no end is male. */
  readonly studMm: number;
  /** Usable thread depth of a female end; equals the body when the bore goes through; 0 when no end is female. */
  readonly threadDepthMm: number;
  /** True when the female bore goes through the whole body. */
  readonly through: boolean;
  /** Across flats of a hexagon, or the diameter of a round one. */
  readonly acrossMm: number;
  readonly section: 'hexagon' | 'round';
}
export interface Screw extends StockItem {
  readonly kind: 'screw';
  readonly material: Material;
  readonly thread: string;
  readonly head: 'pan' | 'button' | 'socket' | 'countersunk';
  /** Length under the head (over all for a countersunk one). */
  readonly lengthMm: number;
  readonly headDiameterMm: number;
  readonly headHeightMm: number;
}
export interface Nut extends StockItem {
  readonly kind: 'nut';
  readonly material: Material;
  readonly thread: string;
  readonly acrossMm: number;
  readonly heightMm: number;
}
export interface Washer extends StockItem {
  readonly kind: 'washer';
  readonly material: Material;
  readonly thread: string;
  readonly innerMm: number;
  readonly outerMm: number;
  readonly thicknessMm: number;
}
export interface Laminate extends StockItem {
  readonly kind: 'laminate';
  readonly permittivity: number;
  readonly lossTangent: number;
  /** Frequency at which permittivity and loss tangent are stated, in Hz. */
  readonly atHz: number;
  /** Dielectric without copper. */
  readonly thicknessMm: number;
  readonly copperMm: number;
  readonly densityKgM3: number;
  /** True for glass-epoxy: loses several decibels in a patch, a warning. */
  readonly lossy: boolean;
}
export interface Coax extends StockItem {
  readonly kind: 'coax';
  readonly impedanceOhm: number;
  readonly pinMm: number;
  readonly dielectricMm: number;
  readonly jacketMm: number;
  readonly velocityFactor: number;
  /** Loss in dB per metre at 1 GHz and 5 GHz. */
  readonly lossDbPerM: { readonly at1GHz: number; readonly at5GHz: number };
  readonly massGPerM: number;
  readonly bendRadiusMm: number;
}
/** Flange of a panel connector. */
export interface Panel {
  /** Hole in the panel for the dielectric or the boss around the pin. */
  readonly bodyHoleMm: number;
  /** Side of the flange, or its length for a narrow one. */
  readonly flangeMm: number;
  /** Holes for its screws as [x, y, diameter] about the pin. */
  readonly holes: readonly (readonly [number, number, number])[];
}
export interface Connector extends StockItem {
  readonly kind: 'connector';
  readonly impedanceOhm: number;
  /** 'cable' is fitted to the end of the coax; 'board' is soldered into the reflector's board from behind; 'panel' is screwed to its back by its flange. */
  readonly mount: 'cable' | 'board' | 'panel';
  /** Board mount: hole for the pin, and the ground posts as [x, y, hole diameter] about the pin. */
  readonly pinHoleMm: number;
  readonly posts: readonly (readonly [number, number, number])[];
  /** Panel mount. */
  readonly panel?: Panel | undefined;
  readonly massG: number;
}

export type AnyStock = Sheet | Rod | Tube | Spacer | Screw | Nut | Washer | Laminate | Coax | Connector;
