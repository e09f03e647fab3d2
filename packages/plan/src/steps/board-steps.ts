import { groupHoles, plain } from '@sheetwave/drawings';
import type { BoardPart } from '@sheetwave/geometry';
import type { Step } from '../document.ts';
import { boardsOf, pathsOf, type StepContext } from './context.ts';
import { step } from './step.ts';

/** Boards: made by a board house, or at home. */
export function boardSteps(context: StepContext): readonly Step[] {
  const boards = boardsOf(context);
  if (boards.length === 0) return [];
  const films = pathsOf(context, ['etch-mask']);
  return [
    order(context, boards, films.length > 0),
    ...(films.length > 0 ? [etch(boards, films), drill(context, boards)] : []),
    inspect(boards),
  ];
}

const countOf = (boards: readonly BoardPart[]): string =>
  boards.map((board) => `${board.quantity} of ${board.name}`).join(', ');

function order(context: StepContext, boards: readonly BoardPart[], orAtHome: boolean): Step {
  const kinds = ['copper-gerber', 'mask-gerber', 'legend-gerber', 'profile-gerber', 'drill-xnc', 'gerber-job'] as const;
  const materials = [...new Set(boards.map(({ laminate }) => laminate))];
  return step({
    id: 'order-boards',
    title: `Have the ${boards.length === 1 ? 'board' : 'boards'} made${orAtHome ? ' (or etch at home: the next two steps)' : ''}`,
    parts: boards.map(({ id }) => id),
    tools: ['caliper'],
    files: pathsOf(context, kinds),
    lines: [
      `Hand the whole set to a board house: ${countOf(boards)}.`,
      ...materials.map(
        (laminate) =>
          `Material: ${laminate.label}; dielectric ${plain(laminate.thicknessMm, 3)} mm, permittivity ${plain(laminate.permittivity, 3)}, copper ${plain(laminate.copperMm * 1000, 0)} µm. Another laminate is another antenna.`,
      ),
      'Finish: bare copper, tin or silver. No nickel under gold on the radiators: it loses power. No solder mask on patches and lines; the files leave it open there.',
    ],
  });
}

function etch(boards: readonly BoardPart[], films: readonly string[]): Step {
  return step({
    id: 'etch-boards',
    title: `Or etch the ${boards.length === 1 ? 'board' : 'boards'} at home`,
    parts: boards.map(({ id }) => id),
    tools: ['printer', 'rule', 'exposure', 'etching', 'gloves', 'glasses'],
    files: films,
    lines: [
      'Print the films at 100 % and measure both bars of 100 mm. If they are off, write what they measure into the design under [etch], and make the films again.',
      'Cut the laminate 10 mm larger than the board on every side, degrease it, and coat or laminate the resist.',
      'Each film says which side it is and how it lies on the copper. Two films: tape them into a pocket by their crosses, the one with two rings on the one with two rings, and slide the board in.',
      'Transfer, develop, rinse. Look at it through a lens: mend gaps in the resist now.',
      'Etch, moving the bath, and stop as soon as the last copper between the lines is gone: longer makes the lines thinner. Rinse, strip the resist.',
      'Spent etchant holds copper: into its container for the collection point, never down the drain.',
    ],
    check: 'No bridge and no gap under a lens. Patch length and line width as in the drawing, within 0.1 mm.',
  });
}

function drill(context: StepContext, boards: readonly BoardPart[]): Step {
  const holes = boards.flatMap((board) =>
    groupHoles(board.outline.holes).map(
      ({ letter, diameterMm, holes: all, purpose, plated }) =>
        `${letter} ${all.length} × Ø ${plain(diameterMm)} mm (${purpose}${plated ? ', to be joined to both sides' : ''})`,
    ),
  );
  return step({
    id: 'drill-boards',
    title: `Drill and cut the etched ${boards.length === 1 ? 'board' : 'boards'}`,
    parts: boards.map(({ id }) => id),
    tools: ['drill', 'boards', 'saw', 'files', 'glasses', 'brush'],
    files: pathsOf(context, ['drill-map-pdf']),
    lines: [
      `Drill after etching, from the front on a hard backing: ${holes.join('; ')}.`,
      'A hole that a board house would line with metal is joined at home by soldering its pin on both sides.',
      'Saw outside the corner marks and file to them. Dust of laminate harms the lungs: wet it or draw it off.',
    ],
    check: 'The board has the size of its drawing within 0.2 mm.',
  });
}

function inspect(boards: readonly BoardPart[]): Step {
  return step({
    id: 'inspect-boards',
    title: 'Look the board over',
    parts: boards.map(({ id }) => id),
    tools: ['meter', 'caliper', 'cleaner'],
    lines: [
      'Measure the length of one patch and the width of one line against the drawing.',
      'Resistance between the copper of the front and that of the back: it must be open, before anything is soldered on.',
    ],
    check: 'No connection between front and back; sizes as drawn.',
  });
}
