import type { CoaxEntry, Feed, Harness } from '../design.ts';
import { type Context, lookUp } from './context.ts';

const ROUND_STEPS = 1e6;
const tidy = (mm: number) => Math.round(mm * ROUND_STEPS) / ROUND_STEPS;

const DEFAULT_PROBE_MM = 1;
const SOLDER_PLAY_MM = 0.2;
const LAND_OVER_JACKET_MM = 4;
const CABLE_MM = 300;

/** The cable entry, or undefined after reporting what is wrong. */
export function resolveCoax(context: Context): CoaxEntry | undefined {
  const file = context.file.coax;
  const coax = lookUp(context, { kind: 'coax', id: file.stock, path: ['coax', 'stock'] });
  const connector =
    file.connector === undefined
      ? undefined
      : lookUp(context, { kind: 'connector', id: file.connector, path: ['coax', 'connector'] });
  if (coax === undefined || (file.connector !== undefined && connector === undefined)) return undefined;
  const mount = connector?.mount ?? 'cable';
  // A panel connector comes through a sheet with its boss; behind a board only its pin goes on.
  const bodyHoleMm = context.file.reflector.board === undefined ? connector?.panel?.bodyHoleMm : undefined;
  const throughHoleMm = file.through_hole ?? bodyHoleMm;
  const sleeveClearanceMm = file.sleeve_clearance ?? 0.1;
  return {
    coax,
    connector,
    sleeveClearanceMm,
    throughHoleMm: throughHoleMm ?? tidy(coax.dielectricMm + 2 * sleeveClearanceMm),
    solderLandMm: file.solder_land ?? tidy((bodyHoleMm ?? coax.jacketMm) + LAND_OVER_JACKET_MM),
    lengthMm: file.length ?? (mount === 'cable' ? CABLE_MM : 0),
  };
}

/** What rises into the patch when the file does not say: the pin of the coax, or the outermost rod bent up. */
function usualProbeMm(harness: Harness, { coax }: CoaxEntry): number {
  if (harness.kind === 'none') return coax.pinMm;
  return harness.kind === 'rod' ? (harness.levels.at(-1)?.rod.diameterMm ?? DEFAULT_PROBE_MM) : DEFAULT_PROBE_MM;
}

/** The feed with its defaults. */
export function resolveFeed(context: Context, harness: Harness, entry: CoaxEntry): Feed {
  const { feed } = context.file;
  if (feed.kind === 'inset') return { kind: 'inset', depthMm: feed.depth, gapMm: feed.gap };
  if (feed.kind === 'edge') return { kind: 'edge' };
  const probeDiameterMm = feed.probe_diameter ?? usualProbeMm(harness, entry);
  return {
    kind: 'probe',
    fromEdgeMm: feed.from_edge,
    probeDiameterMm,
    solderHoleMm: feed.solder_hole ?? tidy(probeDiameterMm + SOLDER_PLAY_MM),
  };
}
