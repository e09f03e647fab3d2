import type { Contour } from './contour.ts';
import type { PriceUnit } from './price.ts';
import type { PrintProcess } from './print-process.ts';
import type { Process } from './stock/process.ts';
import type { OwnTolerances } from './stock/tolerances.ts';
import type { Coax, Connector, Laminate, Nut, Rod, Screw, Sheet, Spacer, Tube, Washer } from './stock/types.ts';

/**
 * What the builder decides, after reading: plain, frozen, serialisable data.
 * Lengths are millimetres, frequencies hertz, angles degrees, gain dBi. Names of stock have been looked up.
 *
 * Axes of an antenna: x to the right and y up as seen from in front, z outward from the front face of the reflector (z = 0).
 */
export interface Design {
  readonly name: string;
  readonly revision: string;
  readonly notes: string;
  /** ISO 8601 date (`2026-05-17`) written into the files, or undefined for none. Never the clock. */
  readonly date: string | undefined;
  readonly band: { readonly lowHz: number; readonly highHz: number };
  readonly targets: Targets;
  readonly reflector: Reflector;
  /** From the reflector outward; the first one is the driven patch. At least one. */
  readonly layers: readonly Layer[];
  readonly feed: Feed;
  readonly lattice: Lattice;
  readonly harness: Harness;
  readonly coax: CoaxEntry;
  readonly box?: Box | undefined;
  readonly hardware: Hardware;
  readonly print: Print;
  readonly paper: Paper;
  readonly etchFilm: EtchFilm;
  /** What sizing may change, in the order of the file. */
  readonly free: readonly FreeDimension[];
  readonly tolerances: OwnTolerances;
  /** What stock costs; undefined when the file gives no prices. */
  readonly prices?: Prices | undefined;
}

/** Prices of stock in one currency. */
export interface Prices {
  /** Three capitals (ISO 4217). */
  readonly currency: string;
  readonly of: readonly Price[];
}

/** What `count` of a unit cost. */
export interface Price {
  /** Id of the stock. */
  readonly id: string;
  /** In units of the currency, not below 0. */
  readonly amount: number;
  /** Size of a pack: 1 unless it is sold by several pieces. */
  readonly count: number;
  readonly unit: PriceUnit;
}

/** One value that sizing may change. `path` is where it stands in the design file, as in a finding: `layer[0].length`. */
export type FreeDimension =
  | {
      readonly kind: 'length';
      readonly path: string;
      readonly fromMm: number;
      readonly toMm: number;
      /** Choices lie this far apart, from `fromMm` on; undefined for any length. */
      readonly stepMm: number | undefined;
      /** What the design has now; may lie outside. */
      readonly valueMm: number;
    }
  | {
      readonly kind: 'stock';
      readonly path: string;
      readonly stock: 'spacer' | 'rod' | 'tube';
      /** At least two, from small to large. */
      readonly choices: readonly StockChoice[];
      /** The id that the design has now; may be none of the choices. */
      readonly value: string;
    };

/** `sizeMm`: length of a spacer, diameter of a rod, outside of a tube. */
export interface StockChoice {
  readonly id: string;
  readonly sizeMm: number;
}

export interface Targets {
  readonly gainDbi: number | undefined;
  /** Largest voltage standing wave ratio over the band, > 1. */
  readonly vswr: number;
  /** Direction of the electric field of the antenna as hung, or the hand of circular polarisation. */
  readonly polarisation: Orientation | Hand | undefined;
}

/** Direction of the resonant length of the patches, and so of the electric field. */
export type Orientation = 'vertical' | 'horizontal';

/**
 * Sense in which the field of a circularly polarised wave turns: right-hand is clockwise for an observer who looks along the
 * wave, away from the antenna (IEEE Std 145, memory), and so counter-clockwise for one who stands in front of it.
 */
export type Hand = 'left-hand' | 'right-hand';

export interface Reflector {
  /** 'minimum' lets the geometry core choose by the rule in `geometry/src/reflector-size.ts`. */
  readonly size: 'minimum' | { readonly widthMm: number; readonly heightMm: number };
  /** A metal sheet, or a laminate whose bottom copper is the ground plane. */
  readonly material:
    | { readonly kind: 'sheet'; readonly sheet: Sheet }
    | { readonly kind: 'board'; readonly laminate: Laminate };
  /** Least distance from the outermost driven patch edge to the reflector edge; undefined leaves it to the minimum rule. */
  readonly edgeMarginMm: number | undefined;
  readonly cornerRadiusMm: number;
  /** True when the rolling direction of its sheet runs along its height. */
  readonly grain: boolean;
  /** One hole near each corner, `insetMm` from both edges. */
  readonly mounting: { readonly diameterMm: number; readonly insetMm: number } | undefined;
  /** Edges bent by 90°; the size of the reflector is then that of the face, over the outside of the folds. */
  readonly fold?: Fold | undefined;
  /** Two U-bolts around a vertical pole behind the reflector. */
  readonly clamp?: PoleClamp | undefined;
  readonly process: Process;
}

export type Side = 'left' | 'right' | 'top' | 'bottom';

export interface Fold {
  /** At least one, each once. */
  readonly sides: readonly Side[];
  /** Height of a folded edge over all, with the thickness of the sheet. */
  readonly heightMm: number;
  /** Inside radius of the bend. */
  readonly insideRadiusMm: number;
  /** Where the neutral line lies, as a share of the thickness from the inside, 0 to 0.5. */
  readonly kFactor: number;
  /** `front` stands toward the patches, `back` away from them. */
  readonly direction: 'front' | 'back';
}

export interface PoleClamp {
  readonly poleMm: number;
  /** Between the two legs of one U-bolt, centre to centre. */
  readonly spacingMm: number;
  readonly holeMm: number;
  /** Across flats of the nuts on the legs. */
  readonly acrossMm: number;
  /** Between the two U-bolts; undefined lets the geometry choose the farthest place that is free. */
  readonly distanceMm: number | undefined;
  /** From the back of the reflector to the pole. */
  readonly standoffMm: number;
}

/** Holes that a box around the antenna needs. The box itself is not a part. */
export interface Box {
  /** `reflector` when the reflector is the back or the lid of the box: only then are the holes in it. */
  readonly partOf: 'reflector' | undefined;
  /** From the edge of the reflector to the inside of the wall. */
  readonly wallMm: number;
  readonly drainMm: number | undefined;
  readonly glandMm: number | undefined;
}

/**
 * A patch in its own plane: the resonant length runs along y and the fed edge lies below the centre. Where a feed says "from the
 * edge", that is the point where the vertical centre line first meets metal, coming from below.
 */
export type PatchShape =
  /** `lengthMm` is the resonant dimension. */
  | {
      readonly kind: 'rectangle';
      readonly lengthMm: number;
      readonly widthMm: number;
      readonly corners: PatchCorners | undefined;
      readonly slot: PatchSlot | undefined;
    }
  | { readonly kind: 'circle'; readonly diameterMm: number }
  /** An annulus. */
  | { readonly kind: 'ring'; readonly outerMm: number; readonly innerMm: number }
  /** Equilateral, one side below and level (the fed edge), a corner above; its centre is the centroid. */
  | { readonly kind: 'triangle'; readonly sideMm: number }
  /** Closed curves from a drawing: which of them is the outside, and where the centre lies, is worked out by geometry. */
  | {
      readonly kind: 'outline';
      /** As the design file names it. */
      readonly file: string;
      readonly loops: readonly Contour[];
      /** Counter-clockwise, about the origin of the drawing, before the centre is put at (0, 0). */
      readonly turnDeg: number;
      readonly centre: 'centroid' | 'origin';
    };

/**
 * What becomes of the corners of a rectangle. A cut takes off a triangle with two sides of `sizeMm` along the edges.
 * Seen from in front with the feed below, `rising` cuts the lower left and upper right corners, `falling` the upper left and
 * lower right ones. Which hand that gives, and why: `handOfCut`.
 */
export type PatchCorners =
  | { readonly kind: 'round'; readonly radiusMm: number }
  | { readonly kind: 'cut'; readonly which: 'all' | 'rising' | 'falling'; readonly sizeMm: number };

/** Slots in a rectangle, symmetrical about its vertical centre line. `near` is the fed edge, `far` the one across from it. */
export type PatchSlot =
  /** One closed slot: its base lies along `edge`, its two arms point away from it. Sizes are over the outside of the slot. */
  | {
      readonly kind: 'u';
      readonly edge: 'near' | 'far';
      readonly armMm: number;
      readonly baseMm: number;
      readonly slotMm: number;
      /** From the edge of the patch to the outside of the base. */
      readonly offsetMm: number;
      /** Radius of the corners that the cutter cannot reach into. */
      readonly endRadiusMm: number;
    }
  /** Two notches that run from `edge` along the length; the metal left between and beside them is the E. */
  | {
      readonly kind: 'e';
      readonly edge: 'near' | 'far';
      readonly lengthMm: number;
      readonly slotMm: number;
      /** Between the centre lines of the two slots. */
      readonly spacingMm: number;
      readonly endRadiusMm: number;
    };

export interface Layer {
  /** Used in part names and file names: letters, digits, `-`. */
  readonly name: string;
  readonly shape: PatchShape;
  readonly build: /** Cut from sheet. */
    | { readonly kind: 'sheet'; readonly sheet: Sheet }
    /** Etched on a board of its own, one per element, `borderMm` larger than the copper on each side. */
    | {
        readonly kind: 'board';
        readonly laminate: Laminate;
        readonly copperSide: 'outward' | 'inward';
        readonly borderMm: number;
      }
    /** Etched on the top copper of the reflector's board (first layer only). */
    | { readonly kind: 'on-reflector-board' };
  /** What carries it: undefined exactly when it is etched on the reflector's board. */
  readonly spacer: LayerSpacer | undefined;
  /** Diameter of the hole at its centre, or undefined for none. */
  readonly fixingHoleMm: number | undefined;
  /** True when the rolling direction of its sheet runs along its length. */
  readonly grain: boolean;
  readonly process: Process;
}

export type LayerSpacer =
  | { readonly kind: 'stock'; readonly spacer: Spacer }
  /** A printed tube of exactly this height around a through screw. */
  | { readonly kind: 'printed'; readonly heightMm: number; readonly outerMm: number };

export type Feed =
  /** A pin that rises from below and is soldered into the driven patch. */
  | {
      readonly kind: 'probe';
      readonly fromEdgeMm: number;
      readonly probeDiameterMm: number;
      readonly solderHoleMm: number;
    }
  /** A microstrip line that enters the patch between two slots of `gapMm`. */
  | { readonly kind: 'inset'; readonly depthMm: number; readonly gapMm: number }
  /** A microstrip line that meets the middle of the radiating edge. */
  | { readonly kind: 'edge' };

export interface Lattice {
  readonly rows: number;
  readonly columns: number;
  /** Vertical distance between rows; 0 when there is one row. */
  readonly rowPitchMm: number;
  /** Horizontal distance between columns; 0 when there is one column. */
  readonly columnPitchMm: number;
  readonly orientation: Orientation;
}

/**
 * What joins the elements to the coax. Levels run from the coax outward; each splits the power in two.
 * A level's bar lies across its two children; from each bar end a stem of `stemMm` leads to the child's own bar (or feed point).
 */
export type Harness =
  /** One element: the coax (or its pin) goes straight to the feed point. */
  | { readonly kind: 'none' }
  | {
      readonly kind: 'rod';
      readonly topology: 'tree' | 'star';
      /** Height of the rod axis above the front face of the reflector. */
      readonly heightMm: number;
      /** Inside radius of the bends. */
      readonly bendRadiusMm: number;
      readonly levels: readonly RodLevel[];
    }
  | {
      readonly kind: 'strip';
      readonly topology: 'tree' | 'star';
      /** Height of the strip's underside above the front face of the reflector. */
      readonly heightMm: number;
      readonly sheet: Sheet;
      readonly process: Process;
      readonly levels: readonly StripLevel[];
    }
  /** Etched on the top copper of the reflector's board. */
  | {
      readonly kind: 'microstrip';
      readonly topology: 'tree';
      readonly levels: readonly StripLevel[];
      /** One element has no level: a line of this width and length leads from the coax to the patch edge. */
      readonly lead: { readonly widthMm: number; readonly lengthMm: number } | undefined;
    };

export interface HarnessLevel {
  /** Which way the two children lie. */
  readonly joins: 'rows' | 'columns';
  readonly stemMm: number;
}
export interface RodLevel extends HarnessLevel {
  readonly rod: Rod;
  /** A tube over the rod, whose larger diameter lowers the impedance along `lengthMm` of each arm. */
  readonly section: { readonly at: 'inner' | 'outer'; readonly lengthMm: number; readonly tube: Tube } | undefined;
}
export interface StripLevel extends HarnessLevel {
  readonly widthMm: number;
  /** Another width along `lengthMm` of each arm, at the end nearer the coax (inner) or nearer the elements (outer). */
  readonly section: { readonly at: 'inner' | 'outer'; readonly lengthMm: number; readonly widthMm: number } | undefined;
}

export interface CoaxEntry {
  readonly coax: Coax;
  readonly connector: Connector | undefined;
  /** Hole in the reflector for the insulating sleeve (the coax dielectric) with its clearance. */
  readonly throughHoleMm: number;
  /** Radial clearance already inside `throughHoleMm`. */
  readonly sleeveClearanceMm: number;
  /** Diameter of the area on the back to tin and solder the jacket to; for a board, of the land around the pin. */
  readonly solderLandMm: number;
  /** Length of cable from the reflector to the connector. */
  readonly lengthMm: number;
}

export interface Hardware {
  readonly thread: string;
  /** ISO 273 series of the fixing holes. */
  readonly fit: 'fine' | 'medium' | 'coarse';
  readonly screw: Screw;
  readonly nut: Nut;
  readonly washer: Washer | undefined;
}

/** What the printer needs, and what the jigs it prints are to allow for. */
export interface Print {
  readonly process: PrintProcess;
  /** Nothing printed is larger. */
  readonly bedMm: { readonly x: number; readonly y: number };
  /** Added to the diameter of printed holes. */
  readonly holeAllowanceMm: number;
  /** Play of fits, on each side. */
  readonly fitClearanceMm: number;
  readonly wallMm: number;
  /** How far the first layers spread; edges on the bed are bevelled by as much. */
  readonly elephantFootMm: number;
  /** How far a bend of a rod opens again when it is let go. */
  readonly springBackDeg: number;
  /** Outside diameter of bushings pressed into drilling jigs; undefined when the printed hole guides the drill. */
  readonly bushingMm: number | undefined;
}

/** What drawings are printed on. */
export interface Paper {
  readonly size: 'a4' | 'letter';
  /** What the printer leaves white at each edge. */
  readonly marginMm: number;
  /** What neighbouring pages of a large drawing show both. */
  readonly overlapMm: number;
}

/** How the films for etching at home are printed. */
export interface EtchFilm {
  /** `positive`: copper is black. */
  readonly film: 'positive' | 'negative';
  /** True when each side is printed mirrored, so that the printed face lies on the copper. */
  readonly mirror: boolean;
  /** `hatched` breaks large black areas by fine clear dashes. */
  readonly fill: 'solid' | 'hatched';
  /** What 100 mm come out as on the builder's printer, across and up the sheet; 100 for a printer that is right. */
  readonly measuredMm: { readonly x: number; readonly y: number };
}
