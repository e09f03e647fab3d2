import type { Step } from '../document.ts';
import { pathsOf, type StepContext } from './context.ts';
import { step } from './step.ts';

/** What is printed before any metal is touched: paper, and jigs. */
export function paperSteps(context: StepContext): readonly Step[] {
  return [...paper(context), ...jigs(context)];
}

function paper(context: StepContext): readonly Step[] {
  const files = pathsOf(context, ['template-pdf', 'drill-map-pdf']);
  if (files.length === 0) return [];
  return [
    step({
      id: 'print-paper',
      title: 'Print the templates and drill maps, and check the print',
      tools: ['printer', 'rule', 'caliper'],
      files,
      lines: [
        'Print every page at 100 %, with scaling and “fit to page” off.',
        'Measure the bar and the square on every page, across and up the sheet.',
        'Join a drawing that lies on several pages by its crosses of one name.',
      ],
      check:
        'The bar is within 0.2 mm of its length and the square within 0.1 mm. If not, do not use the page: find the scaling in the printer’s dialogue.',
    }),
  ];
}

/** What each jig is for, by the beginning of its file name. */
const JIGS: readonly (readonly [start: string, use: string])[] = [
  ['spacer-', 'spacers of the exact heights, or gauges for bought ones'],
  ['stack-jig', 'two like halves that hold one stack concentric and parallel while it is screwed together'],
  ['height-gauge', 'a comb that shows at which height each layer must be'],
  ['drill-', 'guides that put the holes of a part in their place'],
  ['bend-gauge', 'gauges that show where a rod is to be bent'],
  ['bend-block', 'blocks to bend the rods around'],
  ['saddle-', 'saddles that carry the harness at its height while it is soldered'],
];

function jigs(context: StepContext): readonly Step[] {
  const files = pathsOf(context, ['jig-3mf']);
  const printed = context.assembly.parts.filter((part) => part.form === 'printed-spacer');
  if (files.length === 0) return [];
  const uses = JIGS.filter(([start]) => files.some((path) => path.startsWith(`jigs/${start}`))).map(([, use]) => use);
  return [
    step({
      id: 'print-jigs',
      title: printed.length > 0 ? 'Print the spacers and the jigs' : 'Print the jigs',
      parts: printed.map(({ id }) => id),
      tools: ['printer-3d', 'caliper'],
      files,
      lines: [
        'Slice without scaling; the models lie as they are to be printed. STL files of the same name are for programs that do not read 3MF.',
        `They are: ${uses.join('; ')}.`,
        'What comes near the iron or into the sun is not printed in PLA, which is soft from about 55 °C. Filament with carbon in it conducts: never between patch and reflector.',
        ...(printed.length === 0
          ? ['They help; none of them stays in the antenna. Without a printer, measure and mark by the drawings.']
          : []),
        ...printed.map((part) => `Print ${part.quantity} of ${part.name} for the antenna, and one or two to spare.`),
      ],
      check: 'Measure the first one at four places before printing the rest: heights within 0.1 mm.',
    }),
  ];
}
