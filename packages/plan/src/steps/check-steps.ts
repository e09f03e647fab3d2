import type { Assembly } from '@sheetwave/geometry';
import type { Step } from '../document.ts';
import { meterSketch } from '../sketches/meter.ts';
import { connectorPart, type StepContext } from './context.ts';
import { step } from './step.ts';

/** Before any patch is on: the harness alone must not touch the reflector. */
export function bareCheck(context: StepContext): readonly Step[] {
  if (isEtched(context.assembly)) return [];
  return [
    step({
      id: 'check-bare',
      title: 'Check for shorts before the patches go on',
      parts: connectorPart(context),
      tools: ['meter'],
      lines: [
        'Between pin and shell of the connector: open. A short here sits in the connector, at the trimmed dielectric, or where the harness touches a spacer.',
        'Between pin and every end of the harness: below 0.2 ohm. Between shell and reflector: below 0.2 ohm.',
      ],
      check: 'Do this now: with the patches on, a metal spacer may hide it.',
      figure: meterSketch('sketch-meter-bare', 'open'),
    }),
  ];
}

/** With everything on: what the meter should say depends on what holds the driven patches. */
export function closedCheck(context: StepContext): readonly Step[] {
  const short = isGroundedByPosts(context.assembly);
  const etched = isEtched(context.assembly);
  return [
    step({
      id: 'check-closed',
      title: 'Check continuity and shorts before the sweep',
      parts: connectorPart(context),
      tools: ['meter'],
      lines: [
        short
          ? 'Between pin and shell: below 1 ohm, and that is right. The metal spacers join the middle of each driven patch, where it has no voltage, to the reflector; they also drain static.'
          : 'Between pin and shell: open. Anything else is a bridge of solder or metal.',
        etched
          ? 'Between pin and every patch: below 0.5 ohm. A higher one has a crack in its line.'
          : 'Between pin and every driven patch: below 0.5 ohm. One that is higher has a cold joint at its pin.',
        'Between shell and reflector: below 0.2 ohm.',
      ],
      check: `Pin to shell ${short ? 'reads as a short' : 'is open'}, every patch is connected.`,
      figure: meterSketch('sketch-meter-closed', short ? 'below 1 ohm' : 'open'),
    }),
  ];
}

export const isEtched = ({ design }: Assembly): boolean => design.layers[0]?.build.kind === 'on-reflector-board';

/** True when a metal spacer joins the metal of the driven patch to the reflector. */
function isGroundedByPosts({ design }: Assembly): boolean {
  const [driven] = design.layers;
  if (driven?.build.kind !== 'sheet' || driven.spacer === undefined) return false;
  if (driven.spacer.kind === 'stock' && driven.spacer.spacer.material.conductivitySm > 0) return true;
  // A screw of metal goes right through a plain or printed spacer.
  const plainBore = driven.spacer.kind === 'printed' || driven.spacer.spacer.ends.includes('plain');
  return plainBore && design.hardware.screw.material.conductivitySm > 0;
}
