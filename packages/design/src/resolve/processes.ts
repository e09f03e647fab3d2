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
    smallestRadiusMm: own.smallest_radius ?? usual.smallestRadiusMm,
    undercutMm: own.undercut ?? usual.undercutMm,
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
