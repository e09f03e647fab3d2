import type { EtchFilm } from '@sheetwave/design';
import type { Assembly, BoardPart } from '@sheetwave/geometry';
import type { Block } from './block.ts';
import type { BoardSide, FilmFrame } from './film-frame.ts';
import { plain } from './number.ts';
import { titleRows } from './part-words.ts';
import { printCheck } from './print-check.ts';
import { titleBlock } from './title-block.ts';
import { wordsBlock } from './words-block.ts';

interface Film {
  readonly board: BoardPart;
  readonly side: BoardSide;
  readonly film: EtchFilm;
  readonly frame: FilmFrame;
}

export function sideWords(side: BoardSide): string {
  return side === 'top' ? 'top, the side toward the sky' : 'bottom, the side toward the back';
}

/** What stands beside a film. */
export function filmBlocks(assembly: Assembly, what: Film): readonly Block[] {
  const { board, side } = what;
  const rows = titleRows(assembly, board).filter(([label]) => label !== 'view');
  return [
    titleBlock({ heading: `Etch film: ${board.name}, ${side}`, rows: [...rows, ...filmRows(what)] }),
    wordsBlock('film-use', filmUse(what), 185),
    printCheck(100, { stretch: what.frame.stretch }),
  ];
}

function filmRows({ board, side, film }: Film): readonly (readonly [string, string])[] {
  const { undercutMm } = board.process;
  const { x, y } = film.measuredMm;
  return [
    ['side', sideWords(side)],
    ['black', film.film === 'positive' ? 'stays copper (positive)' : 'is etched away (negative)'],
    ['printed', film.mirror ? 'mirrored' : 'not mirrored'],
    ['undercut', undercutMm > 0 ? `copper drawn ${plain(undercutMm, 3)} mm larger at each edge` : 'none allowed for'],
    ['corrected', x === 100 && y === 100 ? 'no' : `100 mm came out ${plain(x)} across, ${plain(y)} up`],
  ];
}

function filmUse({ board, film }: Film): readonly string[] {
  const copies = board.quantity === 1 ? 'Print one' : `Print ${board.quantity}`;
  const sides = board.copper.top.length > 0 && board.copper.bottom.length > 0;
  return [
    `${copies} at 100 %. Measure both bars of 100 mm: if they are off, write what they measure into the design under [etch], measured, and make the film again.`,
    film.mirror
      ? 'Lay the printed face on the copper.'
      : 'Lay the film with its printed face away from the copper: the print then reads as the finished side does.',
    ...(sides
      ? [
          'Two sides: put the films together so that the crosses meet, the one with two rings on the one with two rings, tape two edges, and slide the board between them.',
        ]
      : []),
    ...(film.fill === 'hatched' ? [HATCHED] : []),
    'The short lines outside the corners show the edges of the board. Drill after etching, with the drill map.',
    'Etchants burn skin and eyes and attack metal: goggles, gloves, fresh air. Spent etchant is hazardous waste: hand it in, as local rules say.',
  ];
}

const HATCHED =
  'Fine clear dashes break the large areas, about 4 % of them; they run along the current and cut nothing in two.';
