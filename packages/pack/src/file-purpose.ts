import type { FileKind } from '@sheetwave/geometry';

/** A step of the work and the files that belong to it. */
export interface Step {
  readonly title: string;
  /** What to do with the files, for a person. */
  readonly how: string;
  readonly kinds: readonly FileKind[];
}

/** In the order in which a builder goes through them. */
export const STEPS: readonly Step[] = [
  {
    title: 'Read the plan',
    how: 'Everything in order: what it is, what to buy, drawings, steps, the sweep. The PDF to print, the HTML page for the screen.',
    kinds: ['build-plan', 'report'],
  },
  { title: 'Look it over', how: 'See what it is to become.', kinds: ['picture-svg'] },
  {
    title: 'See what it will do',
    how: 'Diagrams of the prediction, its S parameters as Touchstone for any program that reads them, all numbers as JSON, and what 0.1 mm of each dimension does.',
    kinds: ['plot-svg', 'touchstone', 'prediction-json', 'sensitivities-json'],
  },
  { title: 'Buy', how: 'Open the parts list in any spreadsheet program.', kinds: ['parts-csv'] },
  {
    title: 'Have sheet cut',
    how: 'Drawings in millimetres for a laser, water jet or milling shop. Each says whether it shows the finished outline or the tool path.',
    kinds: ['cut-dxf'],
  },
  {
    title: 'Or have whole sheets cut',
    how: 'All parts laid out on the sheets to buy, each with the layers of its own drawing. The edge of the sheet is on the layer NOTE and is not cut.',
    kinds: ['sheet-dxf'],
  },
  {
    title: 'Cut by hand',
    how: 'Print the PDF at 100 %, measure the bar and the square, glue on, centre-punch, drill, cut and file to the line. The SVG is the same on one sheet of any size.',
    kinds: ['template-pdf', 'template-svg'],
  },
  {
    title: 'Have boards made',
    how: 'Hand the whole set to a board house.',
    kinds: ['copper-gerber', 'mask-gerber', 'legend-gerber', 'profile-gerber', 'gerber-job', 'drill-xnc'],
  },
  {
    title: 'Etch boards at home',
    how: 'Films at 1:1. Print at 100 %, measure both bars of 100 mm, and correct the printer in the design if they are off. Each film says which side it is and how it lies on the copper.',
    kinds: ['etch-mask'],
  },
  {
    title: 'Drill',
    how: 'Every hole by letter, with its diameter and drill. Print at 100 %.',
    kinds: ['drill-map-pdf', 'drill-map-svg'],
  },
  {
    title: 'Print spacers and jigs',
    how: 'Each model in two formats: 3MF, which states its unit, and STL in millimetres. Slice without scaling; measure one spacer before printing the rest. Saddles come near the iron, and spacers out in the sun: no PLA (soft from about 55 °C), better ASA or ABS (about 100 °C) or polycarbonate (110 °C and more).',
    kinds: ['jig-3mf', 'jig-stl'],
  },
];
