import type { Assembly } from '@sheetwave/geometry';
import { bendBlock } from './bend-block.ts';
import { bendGauge } from './bend-gauge.ts';
import { bendPlan } from './bend-plan.ts';
import type { Printed } from './print.ts';

/** For every kind of bent rod a gauge to mark and cut its blank by, and a block to bend it in. */
export function bendJigs({ design, parts }: Assembly): Printed {
  const made = parts.flatMap((part): readonly Printed[] => {
    if (part.form !== 'rod' || part.bends.length === 0) return [];
    const jig = { rod: part, plan: bendPlan(part, design.print), print: design.print, revision: design.revision };
    return [bendGauge(jig), bendBlock(jig)];
  });
  return { files: made.flatMap(({ files }) => files), notes: made.flatMap(({ notes }) => notes) };
}
