import type { Prediction } from '../prediction.ts';
import { fixed, ghz } from './format.ts';
import type { ReportTable } from './prediction-report.ts';

/** Pairs that are listed: the rest is weaker. */
const MOST_PAIRS = 6;

/** Coupling between elements that have a feed each. Empty when the antenna has one port. */
export function couplingTable({ coupling, ports }: Prediction): readonly ReportTable[] {
  if (coupling === undefined) return [];
  const nameOf = (port: number): string => ports[port]?.name ?? `port ${port + 1}`;
  const pairs = coupling.pairs.slice(0, MOST_PAIRS).map((pair) => ({
    what: `${nameOf(pair.from)} and ${nameOf(pair.to)}`,
    cells: [`${fixed(pair.worstDb, 1)} dB`, `at ${ghz(pair.worstHz)}`],
  }));
  const left = coupling.pairs.length - pairs.length;
  const rest = left === 0 ? [] : [{ what: `${left} more pairs`, cells: ['weaker', ''] }];
  const active = {
    what: 'Reflection of an element when all are driven alike',
    cells: [`${fixed(coupling.activeReflectionDb, 1)} dB`, 'highest in the band'],
  };
  return [{ title: 'Coupling within the band', columns: ['strongest', 'remark'], rows: [...pairs, ...rest, active] }];
}
