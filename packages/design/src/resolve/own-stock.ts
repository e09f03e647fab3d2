import type { Report } from '../report.ts';
import type { ReadFile } from '../schema/design-file.ts';
import { findStock, type Stock, type StockKind, stock } from '../stock/catalogue.ts';
import { type MaterialName, materials } from '../stock/materials.ts';
import type {
  Coax,
  Connector,
  Laminate,
  Nut,
  Panel,
  Rod,
  Screw,
  Sheet,
  Spacer,
  StockItem,
  Tube,
  Washer,
} from '../stock/types.ts';

type OwnStock = NonNullable<ReadFile['stock']>;
/** One item of own stock as read. */
type Own<K extends StockKind> = NonNullable<OwnStock[K]>[string];

const STANDARD_STUD_MM = 6;
const DEFAULT_DENSITY_KG_M3 = 2000;

function origin(id: string, item: { readonly label?: string | undefined }): StockItem {
  return { id, label: item.label ?? id, source: 'given in the design file', certainty: 'own' };
}
function materialOf(item: { readonly material: MaterialName }) {
  return materials[item.material];
}

function sheet(id: string, item: Own<'sheet'>): Sheet {
  return {
    ...origin(id, item),
    kind: 'sheet',
    material: materialOf(item),
    thicknessMm: item.thickness,
    sizesMm: item.sizes ?? [],
  };
}
function rod(id: string, item: Own<'rod'>): Rod {
  return {
    ...origin(id, item),
    kind: 'rod',
    material: materialOf(item),
    diameterMm: item.diameter,
    lengthsMm: item.lengths ?? [],
  };
}
function tube(id: string, item: Own<'tube'>): Tube {
  return {
    ...origin(id, item),
    kind: 'tube',
    material: materialOf(item),
    outerMm: item.outer,
    boreMm: item.bore,
    lengthsMm: item.lengths ?? [],
  };
}
function spacer(id: string, item: Own<'spacer'>): Spacer {
  const has = (end: 'male' | 'female') => item.ends.includes(end);
  const depth = has('female') ? (item.thread_depth ?? item.length) : 0;
  return {
    ...origin(id, item),
    kind: 'spacer',
    material: materialOf(item),
    thread: item.thread,
    ends: item.ends,
    bodyMm: item.length,
    studMm: has('male') ? (item.stud ?? STANDARD_STUD_MM) : 0,
    threadDepthMm: depth,
    through: has('female') && !has('male') && depth >= item.length,
    acrossMm: item.across,
    section: item.section ?? 'hexagon',
  };
}
function screw(id: string, item: Own<'screw'>): Screw {
  return {
    ...origin(id, item),
    kind: 'screw',
    material: materialOf(item),
    thread: item.thread,
    head: item.head,
    lengthMm: item.length,
    headDiameterMm: item.head_diameter,
    headHeightMm: item.head_height,
  };
}
function nut(id: string, item: Own<'nut'>): Nut {
  return {
    ...origin(id, item),
    kind: 'nut',
    material: materialOf(item),
    thread: item.thread,
    acrossMm: item.across,
    heightMm: item.height,
  };
}
function washer(id: string, item: Own<'washer'>): Washer {
  return {
    ...origin(id, item),
    kind: 'washer',
    material: materialOf(item),
    thread: item.thread,
    innerMm: item.inner,
    outerMm: item.outer,
    thicknessMm: item.thickness,
  };
}
function laminate(id: string, item: Own<'laminate'>): Laminate {
  return {
    ...origin(id, item),
    kind: 'laminate',
    permittivity: item.permittivity,
    lossTangent: item.loss_tangent,
    atHz: item.at,
    thicknessMm: item.thickness,
    copperMm: item.copper,
    densityKgM3: item.density ?? DEFAULT_DENSITY_KG_M3,
    lossy: item.lossy ?? item.loss_tangent > 0.01,
  };
}
function coax(id: string, item: Own<'coax'>): Coax {
  return {
    ...origin(id, item),
    kind: 'coax',
    impedanceOhm: item.impedance,
    pinMm: item.pin,
    dielectricMm: item.dielectric,
    jacketMm: item.jacket,
    velocityFactor: item.velocity_factor,
    lossDbPerM: { at1GHz: item.loss_at_1ghz ?? 0, at5GHz: item.loss_at_5ghz ?? 0 },
    massGPerM: item.mass ?? 50,
    bendRadiusMm: item.bend_radius ?? 5 * item.jacket,
  };
}
/** The flange reaches as far beyond its farthest hole as that hole is wide; trade flanges do (common practice, no source). */
function panelOf(item: Own<'connector'>): Panel {
  const holes = item.flange_holes ?? [];
  const reach = Math.max(0, ...holes.map(([x, y, hole]) => Math.max(Math.abs(x), Math.abs(y)) + hole));
  // A missing hole is reported; any that clears a pin keeps other checks from repeating it.
  return { bodyHoleMm: item.body_hole ?? 5, flangeMm: item.flange ?? 2 * reach, holes };
}

function connector(id: string, item: Own<'connector'>): Connector {
  return {
    ...origin(id, item),
    kind: 'connector',
    impedanceOhm: item.impedance ?? 50,
    mount: item.mount,
    pinHoleMm: item.pin_hole ?? 0,
    posts: item.posts ?? [],
    ...(item.mount === 'panel' ? { panel: panelOf(item) } : {}),
    massG: item.mass ?? 5,
  };
}

/** An id of the catalogue may not mean something else in one file. */
function checkIds(own: OwnStock, report: Report): void {
  for (const kind of Object.keys(stock) as StockKind[]) {
    for (const id of Object.keys(own[kind] ?? {})) {
      if (findStock(kind, id) === undefined) continue;
      report.error({
        code: 'stock-id-taken',
        path: ['stock', kind, id],
        value: `"${id}"`,
        allowed: 'is already an id of the built-in stock',
        remedy: `choose another id, such as "my-${id}"`,
      });
    }
  }
}

/** What must hold between the fields of one item. */
function checkItems(own: OwnStock, report: Report): void {
  for (const [id, item] of Object.entries(own.tube ?? {})) {
    if (item.bore < item.outer) continue;
    const path = ['stock', 'tube', id, 'bore'];
    report.error({
      code: 'out-of-order',
      path,
      value: `${item.bore} mm`,
      allowed: 'is not smaller than the outside',
      remedy: 'give the inside diameter',
    });
  }
  for (const [id, item] of Object.entries(own.washer ?? {})) {
    if (item.inner < item.outer) continue;
    const path = ['stock', 'washer', id, 'inner'];
    report.error({
      code: 'out-of-order',
      path,
      value: `${item.inner} mm`,
      allowed: 'is not smaller than the outside',
      remedy: 'give the inside diameter',
    });
  }
  for (const [id, item] of Object.entries(own.coax ?? {})) {
    if (item.pin < item.dielectric && item.dielectric < item.jacket) continue;
    const path = ['stock', 'coax', id];
    report.error({
      code: 'out-of-order',
      path,
      allowed: 'has diameters out of order',
      remedy: 'give pin, dielectric and jacket from small to large',
    });
  }
  for (const [id, item] of Object.entries(own.connector ?? {})) {
    checkConnector(id, item, report);
  }
}

function checkConnector(id: string, item: Own<'connector'>, report: Report): void {
  const needed = { cable: [], board: ['pin_hole'], panel: ['body_hole', 'flange_holes'] } as const;
  const words = {
    pin_hole: 'give the hole for the pin of a board connector',
    body_hole: 'give the hole for the boss of a panel connector',
    flange_holes: 'give the holes of its flange, such as [["-6.1 mm", "0 mm", "2.7 mm"], ["6.1 mm", "0 mm", "2.7 mm"]]',
  };
  for (const key of needed[item.mount]) {
    if (item[key] !== undefined) continue;
    const path = ['stock', 'connector', id, key];
    report.error({ code: 'missing-field', path, allowed: 'a length with its unit', remedy: words[key] });
  }
}

function made<I, O>(items: Readonly<Record<string, I>> | undefined, make: (id: string, item: I) => O): O[] {
  return Object.entries(items ?? {}).map(([id, item]) => make(id, item));
}

/** The catalogue with the file's own stock added; own items that are wrong are reported. */
export function withOwnStock(own: OwnStock | undefined, report: Report): Stock {
  if (own === undefined) return stock;
  checkIds(own, report);
  checkItems(own, report);
  return {
    sheet: [...stock.sheet, ...made(own.sheet, sheet)],
    rod: [...stock.rod, ...made(own.rod, rod)],
    tube: [...stock.tube, ...made(own.tube, tube)],
    spacer: [...stock.spacer, ...made(own.spacer, spacer)],
    screw: [...stock.screw, ...made(own.screw, screw)],
    nut: [...stock.nut, ...made(own.nut, nut)],
    washer: [...stock.washer, ...made(own.washer, washer)],
    laminate: [...stock.laminate, ...made(own.laminate, laminate)],
    coax: [...stock.coax, ...made(own.coax, coax)],
    connector: [...stock.connector, ...made(own.connector, connector)],
  };
}
