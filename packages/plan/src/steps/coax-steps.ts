import type { Connector } from '@sheetwave/design';
import { plain } from '@sheetwave/drawings';
import type { Step } from '../document.ts';
import { coaxEndSketch } from '../sketches/coax-end.ts';
import { type CoaxEnd, coaxEnd } from './coax-end.ts';
import type { StepContext } from './context.ts';
import { step } from './step.ts';

/** The cable or connector into the reflector. */
export function coaxSteps(context: StepContext): readonly Step[] {
  const { connector } = context.assembly.design.coax;
  const end = coaxEnd(context.assembly);
  if (end !== undefined)
    return [prepare(end), fit(context, end), ...(connector === undefined ? [] : [plug(connector)])];
  return connector === undefined ? [] : [connector.mount === 'panel' ? panel(context, connector) : board(connector)];
}

function prepare(end: CoaxEnd): Step {
  const { coax, dielectricMm, pinMm, cutMm } = end;
  return step({
    id: 'prepare-coax',
    title: 'Prepare the cable',
    parts: [coax.id],
    tools: ['knife', 'files', 'caliper', 'gloves', 'cleaner'],
    lines: [
      `Cut ${plain(cutMm, 1)} mm of ${coax.label}, ends square. Bend it now if it has to be bent, no tighter than ${plain(coax.bendRadiusMm)} mm.`,
      `At the antenna’s end cut the jacket round at ${plain(dielectricMm + pinMm)} mm from the end: score it, do not cut into the dielectric, and pull it off with a twist.`,
      `Cut the dielectric back by ${plain(pinMm)} mm, so that ${plain(dielectricMm)} mm of it stay, as long as the reflector is thick. Do not nick the pin.`,
      'Heat pushes PTFE out of its jacket: leave 0.3 mm of dielectric more and trim it flush when it has cooled.',
      'Tin a ring of 5 mm of the jacket next to the cut, and the tip of the pin.',
    ],
    check: 'No thread of metal crosses the face of the dielectric; pin to jacket is open.',
    figure: coaxEndSketch(end),
  });
}

function fit(context: StepContext, { coax }: CoaxEnd): Step {
  const { solderLandMm, throughHoleMm } = context.assembly.design.coax;
  return step({
    id: 'fit-coax',
    title: 'Solder the cable into the reflector',
    parts: [coax.id, 'reflector'],
    tools: ['plate', 'iron', 'solder', 'extraction', 'square', 'glasses', 'cleaner'],
    lines: [
      `Tin an area of Ø ${plain(solderLandMm)} mm around the coax hole, on the back only.`,
      `Put the dielectric through the hole of ${plain(throughHoleMm)} mm from the back until the jacket sits on the metal. The jacket must not come through: it ends at the back.`,
      'Warm the whole plate to 120 to 150 °C; the iron then needs only seconds. Solder the jacket all the way round. No flame: overheated PTFE gives off poisonous fume.',
      'Let it cool without moving it. Trim the dielectric flush with the front.',
    ],
    check:
      'The cable stands square; the fillet is closed all round; pin to reflector is open, jacket to reflector below 0.1 ohm.',
  });
}

function plug(connector: Connector): Step {
  return step({
    id: 'fit-plug',
    title: 'Fit the connector to the other end of the cable',
    parts: [connector.id],
    tools: ['knife', 'iron', 'solder', 'extraction', 'caliper'],
    lines: [
      `${connector.label}: strip the cable to the lengths on the sheet that comes with the connector; they differ from maker to maker.`,
      'Solder or clamp the jacket first, then the pin. The pin must not stand further out than the connector’s own gauge allows, or it breaks the jack.',
    ],
    check: 'Pin to shell is open. Pin depth within the tolerance of the connector.',
  });
}

function panel({ assembly }: StepContext, connector: Connector): Step {
  const flange = connector.panel?.holes.length ?? 0;
  return step({
    id: 'fit-connector',
    title: 'Screw the connector to the back of the reflector',
    parts: [connector.id, 'reflector'],
    tools: ['spanner', 'iron', 'solder', 'files', 'caliper'],
    lines: [
      `Lay ${connector.label} on the back, its pin through the hole of ${plain(assembly.design.coax.throughHoleMm)} mm, without paint or oxide under the flange.`,
      `Screw it down with ${flange} screws, crosswise.`,
      'Cut the pin to reach the harness or stand 0.5 mm out of the driven patch.',
    ],
    check: 'Shell to reflector below 0.1 ohm, pin to reflector open.',
  });
}

function board(connector: Connector): Step {
  const posts = connector.posts.length;
  return step({
    id: 'fit-connector',
    title: 'Solder the connector into the board',
    parts: [connector.id, 'reflector'],
    tools: ['iron', 'solder', 'extraction', 'pliers', 'cleaner', 'glasses'],
    lines: [
      `Put ${connector.label} in from the back; its body lies flat on the ground plane.`,
      `Solder one of its ${posts} ground posts, look that it sits flat, then the others: on the back all round each, and on the front where the holes have copper.`,
      'Solder the pin to its land on the front, quickly. Cut it off 0.5 mm above the solder and file it smooth.',
      'Wash off the flux.',
    ],
    check: 'Shell to ground plane below 0.1 ohm; pin to line below 0.1 ohm; pin to shell open.',
  });
}
