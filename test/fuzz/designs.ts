import { type Random, some } from './random.ts';
import type { Table, Value } from './toml.ts';

/** A length as a design file has it, with at most three decimals. */
const mm = (value: number): string => `${Number(value.toFixed(3))} mm`;

/**
 * A design as a builder might write one, sizes scaled to its band. Most can be made; the others are refused for a reason, such as
 * a hole too near an edge.
 */
export function randomDesign(random: Random): Table {
  const ghz = random.pick([2.44, 5.2, 5.5, 5.8, 6.5]);
  const scale = 5.8 / ghz;
  return random.chance(0.3) ? etchedDesign(random, { ghz, scale }) : sheetDesign(random, { ghz, scale });
}

interface Band {
  readonly ghz: number;
  readonly scale: number;
}

function head(random: Random, { ghz }: Band): Table {
  const names = ['Heron Lock', 'mast 5', 'Ø-Mast µ', '水門 7', 'a', "keeper's; cottage, 2"];
  return {
    format: 1,
    name: random.pick(names),
    ...some(random, 0.5, {
      revision: random.pick(['A', 'B', '2.1']),
      notes: 'Made up: "quotes" & <tags>,\nlines; Ω µ',
    }),
    band: { low: `${(ghz * 0.99).toFixed(4)} GHz`, high: `${Math.round(ghz * 1010)} MHz` },
    ...some(random, 0.5, {
      targets: some(random, 0.6, { gain: '14 dBi', vswr: 1.7, polarisation: 'vertical' }) as Table,
    }),
  };
}

function sheetDesign(random: Random, band: Band): Table {
  const process = random.pick(['hand', 'laser', 'waterjet', 'mill']);
  const lattice = latticeOf(random, band, 46);
  const count = Number(lattice.rows) * Number(lattice.columns);
  const harness = sheetHarness(random, { lattice, process });
  const pin = count === 1 ? 0.92 : harness.kind === 'rod' ? 1.5 : 1.3;
  const stock = random.pick(['semi-rigid-141', 'semi-rigid-086']);
  return {
    ...head(random, band),
    reflector: {
      size: 'minimum',
      sheet: random.pick(['brass-1.0', 'brass-0.8', 'copper-1.0']),
      corner_radius: mm(random.between(0, 8)),
      process,
      ...some(random, 0.6, {
        mounting_holes: { diameter: mm(random.between(3, 6)), inset: mm(random.between(6, 14)) },
      }),
      ...some(random, 0.12, {
        fold: { sides: random.pick<Value>(['all', ['left', 'right'], ['top']]), height: mm(random.between(8, 20)) },
        clamp: { pole: mm(random.between(25, 60)) },
        edge_margin: mm(random.between(5, 60)),
      }),
    },
    layer: sheetLayers(random, band, process),
    feed: { kind: 'probe', from_edge: mm(4 * band.scale), probe_diameter: mm(pin), solder_hole: mm(pin + 0.25) },
    lattice,
    harness,
    coax: { stock, ...some(random, 0.5, { connector: 'n-plug-cable', length: mm(random.between(50, 400)) }) },
    hardware: { thread: 'M3', ...some(random, 0.3, { fit: random.pick(['fine', 'medium', 'coarse']) }) },
    ...extras(random, process),
  };
}

function extras(random: Random, process: string): Table {
  const fine = {
    kerf: mm(random.between(0.05, 1)),
    compensate_kerf: random.chance(0.5),
    smallest_radius: mm(random.between(0, 1)),
  };
  const shop = some(random, 0.4, {
    ...fine,
    inside_corners: random.pick(['as-drawn', 'round', 'dog-bone']),
    lead_in: mm(random.between(0, 4)),
    tabs: random.whole(0, 4),
    allowance: mm(random.between(0, 1)),
    spacing: mm(random.between(1, 10)),
  });
  const print = some(random, 0.5, { wall: mm(random.between(1, 4)), fit_clearance: mm(random.between(0, 0.5)) });
  return some(random, 0.4, { process: { [process]: shop as Table }, print: print as Table }) as Table;
}

function sheetLayers(random: Random, { scale }: Band, process: string): readonly Table[] {
  const count = random.pick([1, 1, 2, 2, 3, 4]);
  const threaded = random.chance(0.6);
  return Array.from({ length: count }, (_, index) => ({
    ...some(random, 0.5, { name: `layer-${index}` }),
    ...shapeOf(random, scale * 0.85 ** index),
    sheet: random.pick(['brass-0.5', 'brass-0.8', 'copper-0.5', 'aluminium-1.0']),
    spacer: threaded
      ? random.pick(['m3-mf-5-brass', 'm3-mf-6-brass', 'm3-mf-8-brass', 'm3-mf-10-brass'])
      : { printed: mm(random.between(4, 9)), outer: mm(random.between(6.5, 9)) },
    process,
    ...some(random, 0.1, { grain: random.chance(0.5), relief: 'dog-bone' }),
  }));
}

function shapeOf(random: Random, scale: number): Table {
  const [length, width] = [mm(20 * scale), mm(random.between(20, 27) * scale)];
  const rectangle = { shape: 'rectangle', length, width };
  return random.pick<() => Table>([
    () => rectangle,
    () => rectangle,
    () => ({ ...rectangle, corner_radius: mm(random.between(0, 4) * scale) }),
    () => ({
      ...rectangle,
      cut_corners: { corners: random.pick(['opposite', 'all']), size: mm(2.5 * scale), hand: 'left-hand' },
    }),
    () => ({ ...rectangle, slot: slotOf(random, scale) }),
    () => ({ shape: 'circle', diameter: mm(21 * scale) }),
    () => ({ shape: 'triangle', side: mm(27 * scale) }),
  ])();
}

const slotOf = (random: Random, scale: number): Table =>
  random.chance(0.5)
    ? {
        kind: 'u',
        arm: mm(9 * scale),
        base: mm(10 * scale),
        offset: mm(2.5 * scale),
        width: mm(random.between(1, 3)),
      }
    : {
        kind: 'e',
        length: mm(6 * scale),
        spacing: mm(12 * scale),
        width: mm(random.between(1, 3)),
        edge: random.pick(['near', 'far']),
      };

function latticeOf(random: Random, { scale }: Band, pitch: number): Table {
  const [rows, columns] = [random.pick([1, 1, 1, 2, 2, 4]), random.pick([1, 1, 2, 2, 4, 8])];
  return {
    rows,
    columns,
    ...(rows > 1 ? { row_pitch: mm(random.between(pitch, pitch + 6) * scale) } : {}),
    ...(columns > 1 ? { column_pitch: mm(random.between(pitch, pitch + 6) * scale) } : {}),
    orientation: random.pick(['vertical', 'vertical', 'horizontal']),
  };
}

function sheetHarness(
  random: Random,
  { lattice, process }: { readonly lattice: Table; readonly process: string },
): Table {
  const count = Number(lattice.rows) * Number(lattice.columns);
  if (count === 1) return { kind: 'none' };
  const star =
    (count === 2 || (lattice.rows === 2 && lattice.columns === 2)) && random.chance(0.25) ? { topology: 'star' } : {};
  const stem = mm(random.between(4, 14));
  return random.chance(0.5)
    ? {
        kind: 'rod',
        height: mm(random.between(2, 3)),
        rod: 'brass-rod-1.5',
        bend_radius: mm(random.between(1, 2)),
        ...star,
        ...some(random, 0.5, { stem }),
      }
    : {
        kind: 'strip',
        height: mm(random.between(1.5, 3)),
        sheet: 'brass-0.5',
        width: mm(random.between(2, 4)),
        process,
        stem,
        ...star,
      };
}

function etchedDesign(random: Random, band: Band): Table {
  const { scale } = band;
  const lattice = latticeOf(random, band, 38);
  const single = lattice.rows === 1 && lattice.columns === 1;
  const inset = { kind: 'inset', depth: mm(4.6 * scale), gap: mm(random.between(0.3, 1)) };
  const feed = random.chance(0.7) ? inset : { kind: 'edge' };
  return {
    ...head(random, band),
    reflector: {
      size: 'minimum',
      board: random.pick(['ptfe-glass-0.787-35', 'fr4-0.8-35']),
      edge_margin: mm(24 * scale),
      process: 'etch',
    },
    layer: [
      { shape: 'rectangle', length: mm(17 * scale), width: mm(21 * scale), process: 'etch' },
      ...(random.chance(0.4) ? [boardLayer(random, scale)] : []),
    ],
    feed,
    lattice,
    harness: {
      kind: 'microstrip',
      width: mm(random.between(0.4, 1)),
      ...(single ? { length: mm(12 * scale) } : { stem: mm(11 * scale) }),
    },
    coax: { stock: 'semi-rigid-141', connector: 'sma-board' },
  };
}

function boardLayer(random: Random, scale: number): Table {
  const ring = { shape: 'ring', outer_diameter: mm(20 * scale), inner_diameter: mm(9 * scale) };
  return {
    ...(random.chance(0.4) ? ring : shapeOf(random, scale)),
    board: random.pick(['fr4-0.8-35', 'ptfe-glass-0.787-35']),
    copper_side: random.pick(['inward', 'outward']),
    border: mm(random.between(0.5, 4)),
    spacer: { printed: mm(random.between(3, 8)), outer: '7 mm' },
    process: 'etch',
  };
}
