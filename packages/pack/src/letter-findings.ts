import type { Finding } from '@sheetwave/design';
import type { Part } from '@sheetwave/geometry';
import type { SoundDesign } from './make-pack.ts';

/** A text of the design file that is printed. */
interface Printed {
  readonly path: string;
  /** For people: `the name`. */
  readonly what: string;
  readonly text: string;
}

const MOST_SHOWN = 12;

/** A warning for each text of the design that holds letters which the printed files cannot show. `missingIn` tells them. */
export function findingsOfLetters(
  checked: Pick<SoundDesign, 'design' | 'assembly'>,
  missingIn: (text: string) => readonly string[],
): readonly Finding[] {
  return printedTexts(checked).flatMap((printed) => {
    const missing = missingIn(printed.text);
    return missing.length === 0 ? [] : [findingOf(printed, missing)];
  });
}

function findingOf({ path, what }: Printed, missing: readonly string[]): Finding {
  const shown = missing.slice(0, MOST_SHOWN).join(' ');
  const more = missing.length > MOST_SHOWN ? ` and ${missing.length - MOST_SHOWN} more` : '';
  return {
    code: 'unprintable-letters',
    severity: 'warning',
    path,
    value: `${shown}${more}`,
    allowed: `of ${what} is not in the faces of the PDF files, which print "?" for each`,
    remedy: 'write it in Latin, Greek or Cyrillic letters too, or go by report.html and the SVG files',
  };
}

function printedTexts({ design, assembly }: Pick<SoundDesign, 'design' | 'assembly'>): readonly Printed[] {
  const labels = new Map(assembly.parts.flatMap(ownLabel).map((one) => [one.path, one]));
  return [
    { path: 'name', what: 'the name', text: design.name },
    { path: 'revision', what: 'the revision', text: design.revision },
    { path: 'notes', what: 'the notes', text: design.notes },
    ...labels.values(),
  ];
}

/** The label of own stock: the catalogue's own are all printable. */
function ownLabel(part: Part): readonly Printed[] {
  const item = stockOf(part);
  if (item === undefined || item.certainty !== 'own') return [];
  const id = /^[\w-]+$/.test(item.id) ? item.id : JSON.stringify(item.id);
  return [{ path: `stock.${item.kind}.${id}.label`, what: `the label of ${item.id}`, text: item.label }];
}

function stockOf(part: Part) {
  switch (part.form) {
    case 'plate':
      return part.sheet;
    case 'board':
      return part.laminate;
    case 'rod':
      return part.rod;
    case 'tube':
      return part.tube;
    case 'bought':
      return part.item;
    case 'printed-spacer':
      return undefined;
  }
}
