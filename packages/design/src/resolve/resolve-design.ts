import { checkDesign, checkFile } from '../check/consistency.ts';
import type { Design, Targets } from '../design.ts';
import { deepFreeze } from '../freeze.ts';
import type { Report } from '../report.ts';
import type { ReadFile } from '../schema/design-file.ts';
import { resolveBox } from './clamp.ts';
import type { Context } from './context.ts';
import { resolveCoax, resolveFeed } from './feed.ts';
import { resolveFree } from './free.ts';
import { resolveHardware } from './hardware.ts';
import { resolveHarness } from './harness.ts';
import { resolveLattice } from './lattice.ts';
import { resolveLayers } from './layers.ts';
import { withOwnStock } from './own-stock.ts';
import { etchFilmOf, paperOf } from './paper.ts';
import { resolvePrices } from './prices.ts';
import { printOf } from './print.ts';
import { withOverrides } from './processes.ts';
import { resolveReflector } from './reflector.ts';
import { tolerancesOf } from './tolerances.ts';

function targetsOf(targets: ReadFile['targets']): Targets {
  return { gainDbi: targets?.gain, vswr: targets?.vswr ?? 2, polarisation: targets?.polarisation };
}

/** Everything that needs stock; each part reports its own mistakes, so that one reading shows them all. */
function resolveParts(context: Context) {
  const reflector = resolveReflector(context);
  const layers = resolveLayers(context);
  const lattice = resolveLattice(context);
  const coax = resolveCoax(context);
  const harness = lattice && resolveHarness(context, lattice);
  const hardware = reflector && layers && resolveHardware(context, { reflector, layers });
  if (!(reflector && layers && lattice && coax && harness && hardware)) return undefined;
  const feed = resolveFeed(context, harness, coax);
  return { reflector, layers, feed, lattice, harness, coax, hardware };
}

/** Looks up stock and fills in defaults. Undefined when anything was reported as an error. */
export function resolveDesign(file: ReadFile, report: Report, files: ReadonlyMap<string, string>): Design | undefined {
  checkFile(file, report);
  const stock = withOwnStock(file.stock, report);
  const context: Context = { file, stock, processes: withOverrides(file.process), files, report };
  const parts = resolveParts(context);
  if (parts === undefined) return undefined;
  const box = resolveBox(context);
  const prices = resolvePrices(context);
  const design: Design = {
    name: file.name,
    revision: file.revision ?? 'A',
    notes: file.notes ?? '',
    date: file.date,
    band: { lowHz: file.band.low, highHz: file.band.high },
    targets: targetsOf(file.targets),
    ...parts,
    ...(box && { box }),
    print: printOf(file.print),
    paper: paperOf(file.paper),
    etchFilm: etchFilmOf(file.etch),
    free: resolveFree(context),
    tolerances: tolerancesOf(file.tolerances),
    ...(prices && { prices }),
  };
  checkDesign(design, report);
  return deepFreeze(design);
}
