import { plain } from '@sheetwave/drawings';
import type { Step } from '../document.ts';
import { connectorPart, type StepContext } from './context.ts';
import { step } from './step.ts';

export function sweepSteps(context: StepContext): readonly Step[] {
  const { band, targets } = context.assembly.design;
  const ghz = (hz: number): string => plain(hz / 1e9, 3);
  const wide = band.highHz - band.lowHz;
  return [
    step({
      id: 'sweep',
      title: 'Sweep it',
      parts: connectorPart(context),
      tools: ['analyser'],
      lines: [
        `Set the analyser from ${ghz(band.lowHz - wide * 2)} to ${ghz(band.highHz + wide * 2)} GHz, at least 401 points, and calibrate at the end of the cable that will be screwed to the antenna.`,
        'Stand the antenna so that it looks at open sky or at a wall more than 3 m away; nothing within 1 m in front, and no hand on it.',
        `Read S11 from ${ghz(band.lowHz)} to ${ghz(band.highHz)} GHz. VSWR ${plain(targets.vswr)} is a return loss of ${plain(returnLossDb(targets.vswr), 1)} dB: S11 below ${plain(-returnLossDb(targets.vswr), 1)} dB.`,
        'Keep the sweep as a Touchstone file with the date and the revision in its name; the section on the sweep says what to do with it.',
      ],
      check: 'The same curve comes back after unscrewing and screwing on again, and moving the cable changes nothing.',
    }),
  ];
}

/** Return loss of a standing wave ratio: −20 lg((s − 1)/(s + 1)). */
export const returnLossDb = (vswr: number): number => -20 * Math.log10((vswr - 1) / (vswr + 1));

/** What the design gives for putting it up. Empty when there is nothing to screw on. */
export function outdoorSteps(context: StepContext): readonly Step[] {
  const { reflector, box } = context.assembly.design;
  const { clamp, mounting } = reflector;
  if (clamp === undefined && mounting === undefined && box === undefined) return [];
  return [
    step({
      id: 'mount',
      title: 'Make it ready to go up',
      parts: ['reflector'],
      tools: ['spanner'],
      lines: [
        ...(clamp === undefined
          ? []
          : [
              `Two U-bolts for a pole of ${plain(clamp.poleMm)} mm go through the ${plain(clamp.holeMm)} mm holes, ${plain(clamp.spacingMm)} mm between their legs; the pole stands ${plain(clamp.standoffMm)} mm behind the reflector. They are not tightened onto the sheet alone: put a plate or the clamp’s own saddle behind it.`,
            ]),
        ...(mounting === undefined
          ? []
          : [
              `Mounting holes of ${plain(mounting.diameterMm)} mm are at the corners, ${plain(mounting.insetMm)} mm from the edges.`,
            ]),
        ...(box?.drainMm === undefined ? [] : ['Keep the drain hole at the lowest place, and open.']),
        'Seal the connector with self-amalgamating tape, the upper side last, with a drip loop in the cable. No sealant that smells of vinegar: it eats copper and brass.',
        'A cover changes the tuning: sweep again with it on.',
        'Masts, roofs, mains and lightning: see the cautions. Earthing and lightning protection are designed under the local code by someone licensed for it.',
      ],
      check: 'Swept again in its cover, on its mount.',
    }),
  ];
}
