import { plain } from '@sheetwave/drawings';
import type { Part } from '@sheetwave/geometry';
import { figureBlock, heading, type PartSheet, type PlanBlock, paragraph, type Section } from '../document.ts';
import { datumWords } from '../drawn/datum.ts';
import type { PlanInput } from '../input.ts';
import { exactnessOf } from './tolerances.ts';

/** A dimensioned drawing of every part that is made, one under the other. */
export function drawingSection(input: PlanInput, sheets: readonly PartSheet[]): Section {
  return {
    id: 'drawings',
    title: 'Drawings of the parts to make',
    blocks: [
      paragraph(
        'Dimensions are in millimetres, finished sizes, seen from the front. The templates and drill maps of the pack show the same parts at 1:1.',
      ),
      ...sheets.flatMap((sheet) => sheetBlocks(input, sheet)),
    ],
  };
}

function sheetBlocks(input: PlanInput, sheet: PartSheet): readonly PlanBlock[] {
  const { assembly, parts, files } = input;
  const part = assembly.parts.find(({ id }) => id === sheet.part);
  const line = parts.find(({ id }) => id === sheet.part);
  if (part === undefined || line === undefined) throw new Error(`a drawing of ${sheet.part}, which is no part`);
  const shown = files
    .filter((file) => file.part === sheet.part && !/\.(?:stl|svg)$/.test(file.path))
    .map(({ path }) => path);
  return [
    heading(`part-${part.id}`, `${capital(part.name)}: ${part.quantity} of ${line.label}`),
    paragraph([madeWords(part), ...(shown.length === 0 ? [] : [`Files: ${shown.join(', ')}.`])].join(' ')),
    figureBlock(sheet.figure),
    ...sheet.tables,
    ...exactnessOf(input, part.id),
  ];
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function madeWords(part: Part): string {
  switch (part.form) {
    case 'plate':
      return `${datumWords(part.outline)} Thickness ${plain(part.sheet.thicknessMm, 3)} mm; ${part.process.label}, ± ${plain(part.process.toleranceMm)} mm on the outline.`;
    case 'board':
      return `${datumWords(part.outline)} Dielectric ${plain(part.laminate.thicknessMm, 3)} mm, copper ${plain(part.laminate.copperMm * 1000, 0)} µm; ${part.process.label}, ± ${plain(part.process.toleranceMm)} mm on the copper.`;
    case 'rod':
      return 'Lengths along the middle of the rod; the marks are the middles of the bends.';
    case 'tube':
      return 'Ends square.';
    case 'printed-spacer':
      return 'The height sets the resonance: within 0.1 mm.';
    case 'bought':
      return '';
  }
}
