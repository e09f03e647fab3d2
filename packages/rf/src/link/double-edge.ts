import { requirePositive } from '../require.ts';
import { knifeEdgeLossDb, knifeEdgeParameter } from './knife-edge.ts';

/** Two edges on a path. Metres; heights above the straight line between both ends, negative below it. */
export interface TwoEdges {
  /** From the near end to the first edge, from there to the second, and from that to the far end. */
  readonly toFirstM: number;
  readonly betweenM: number;
  readonly fromSecondM: number;
  readonly firstAboveM: number;
  readonly secondAboveM: number;
  readonly freqHz: number;
}

/** From this loss of each edge on the sum of both with their separation holds, dB (ITU-R P.526-15, section 4.4). */
const DEEP_DB = 15;

/**
 * Loss over two isolated edges, dB (ITU-R P.526-15, section 4.4; memory, held in the tests to the exact solutions at grazing and in the deep
 * shadow). Where both edges alone cost 15 dB or more: both, each seen from the other, and L_c for the distance between them. Else one is
 * taken as predominant: its loss over the whole path, that of the other seen from its top, less T_c.
 */
export function doubleEdgeLossDb(path: TwoEdges): number {
  const { toFirstM: a, betweenM: b, fromSecondM: c, firstAboveM, secondAboveM, freqHz } = path;
  requirePositive({ toFirstM: a, betweenM: b, fromSecondM: c, freqHz });
  const firstSeen = firstAboveM - (secondAboveM * a) / (a + b);
  const secondSeen = secondAboveM - (firstAboveM * c) / (b + c);
  const first = knifeEdgeLossDb(knifeEdgeParameter(firstSeen, a, b, freqHz));
  const second = knifeEdgeLossDb(knifeEdgeParameter(secondSeen, b, c, freqHz));
  if (Math.min(first, second) >= DEEP_DB)
    return first + second + 10 * Math.log10(((a + b) * (b + c)) / (b * (a + b + c)));
  const [p, q] = [
    knifeEdgeParameter(firstAboveM, a, b + c, freqHz),
    knifeEdgeParameter(secondAboveM, a + b, c, freqHz),
  ];
  const firstLeads = p >= q;
  const main = knifeEdgeLossDb(firstLeads ? p : q);
  const other = firstLeads ? second : first;
  return Math.max(main, main + other - separationDb(path, firstLeads ? [p, q] : [q, p]));
}

/**
 * T_c = (12 - 20 log10(2 / (1 - alpha / pi))) (q / p)^(2 p), tan alpha = sqrt(b (a + b + c) / (a c)), with the parameters p of the predominant
 * edge and q of the other over the whole path. An edge below the line between the ends has no such correction; at grazing the power is 1.
 */
function separationDb(
  { toFirstM: a, betweenM: b, fromSecondM: c }: TwoEdges,
  [p, q]: readonly [number, number],
): number {
  if (q < 0 || p < 0) return 0;
  const alpha = Math.atan(Math.sqrt((b * (a + b + c)) / (a * c)));
  const grazing = 12 - 20 * Math.log10(2 / (1 - alpha / Math.PI));
  return grazing * (p === 0 ? 1 : (q / p) ** (2 * p));
}
