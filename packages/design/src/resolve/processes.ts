import type { ReadFile } from '../schema/design-file.ts';
import type { Process } from '../stock/process.ts';
import { processes } from '../stock/processes.ts';

type Override = NonNullable<NonNullable<ReadFile['process']>[Process['id']]>;

function overridden(usual: Process, own: Override | undefined): Process {
  if (own === undefined || Object.keys(own).length === 0) return usual;
  return {
    ...usual,
    kerfMm: own.kerf ?? usual.kerfMm,
    compensateKerf: own.compensate_kerf ?? usual.compensateKerf,
    allowanceMm: own.allowance ?? usual.allowanceMm,
    lineWidthMm: own.line_width ?? usual.lineWidthMm,
    smallestRadiusMm: own.smallest_radius ?? usual.smallestRadiusMm,
    insideCorners: own.inside_corners ?? usual.insideCorners,
    leadInMm: own.lead_in ?? usual.leadInMm,
    tabs: {
      count: own.tabs ?? usual.tabs.count,
      widthMm: own.tab_width ?? usual.tabs.widthMm,
      belowMm: own.tab_below ?? usual.tabs.belowMm,
    },
    spacingMm: own.spacing ?? usual.spacingMm,
    edgeMarginMm: own.edge_margin ?? usual.edgeMarginMm,
    undercutMm: own.undercut ?? usual.undercutMm,
    etchFactor: own.undercut === undefined ? (own.etch_factor ?? usual.etchFactor) : 0,
    leastWebMm: own.least_web ?? usual.leastWebMm,
    toleranceMm: own.tolerance ?? usual.toleranceMm,
    source: `given in the design file: ${Object.keys(own).join(', ')}; else ${usual.source}`,
    certainty: 'own',
  };
}

/** The usual processes with what the file says otherwise. */
export function withOverrides(own: ReadFile['process']): Readonly<Record<Process['id'], Process>> {
  if (own === undefined) return processes;
  return {
    hand: overridden(processes.hand, own.hand),
    laser: overridden(processes.laser, own.laser),
    waterjet: overridden(processes.waterjet, own.waterjet),
    mill: overridden(processes.mill, own.mill),
    etch: overridden(processes.etch, own.etch),
  };
}

/**
 * The process for a board: undercut = copper thickness over etch factor (IPC-T-50, "etch factor"; definition confirmed, values of the
 * factor by memory), unless the file gives the undercut itself or the process does not etch.
 */
export function etchedOn(process: Process, copperMm: number): Process {
  return process.etchFactor > 0 ? { ...process, undercutMm: copperMm / process.etchFactor } : process;
}
