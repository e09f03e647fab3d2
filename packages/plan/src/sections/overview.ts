import type { Design } from '@sheetwave/design';
import { plain } from '@sheetwave/drawings';
import { circularHand } from '@sheetwave/geometry';
import { antennaTop } from '@sheetwave/pictures';
import { figureBlock, type PlanBlock, paragraph, type Section, table } from '../document.ts';
import { ofPicture } from '../figure-block.ts';
import type { PlanInput } from '../input.ts';
import { massOf } from '../mass-total.ts';
import { predictionBlocks } from './prediction.ts';

/** What it is and what it will do. */
export function overview(input: PlanInput): Section {
  const { assembly, estimate, prediction } = input;
  const { design } = assembly;
  return {
    id: 'what',
    title: 'What it is, and what it will do',
    blocks: [
      paragraph(whatItIs(design)),
      ...notesOf(design),
      factsTable(input),
      figureBlock(ofPicture('picture-top', 'The finished antenna, seen from the front.', antennaTop(assembly, 95))),
      ...(prediction === undefined ? estimateBlocks(input) : predictionBlocks(design, prediction, estimate)),
    ],
  };
}

function notesOf({ notes }: Design): readonly PlanBlock[] {
  return notes
    .split(/\n\s*\n/)
    .map((text) => text.replace(/\s+/g, ' ').trim())
    .filter((text) => text !== '')
    .map(paragraph);
}

const ghz = (hz: number): string => plain(hz / 1e9, 4);

function whatItIs(design: Design): string {
  const { rows, columns } = design.lattice;
  const count = rows * columns;
  const elements = count === 1 ? 'one element' : `${count} elements (${rows} × ${columns}, rows × columns)`;
  const layers = design.layers.length === 1 ? 'one patch' : `${design.layers.length} stacked patches`;
  return `A flat panel antenna for ${ghz(design.band.lowHz)} to ${ghz(design.band.highHz)} GHz: ${elements}, each of ${layers} over a reflector, joined to one coax. ${fieldWords(design)}`;
}

function fieldWords(design: Design): string {
  const hand = circularHand(design);
  return hand === undefined
    ? `Its electric field is ${design.lattice.orientation} when it hangs upright.`
    : `Its polarisation is circular, ${hand} (IEEE).`;
}

function factsTable({ assembly, parts }: PlanInput): PlanBlock {
  const { design, reflector, layerHeights } = assembly;
  const top = Math.max(0, ...layerHeights.map(({ bodyTopMm }) => bodyTopMm));
  const { connector, coax } = design.coax;
  const { targets } = design;
  const fold = design.reflector.fold;
  const rows = [
    ['band', `${ghz(design.band.lowHz)} to ${ghz(design.band.highHz)} GHz`],
    ['wanted match', `VSWR ${plain(targets.vswr)} or better`],
    ...(targets.gainDbi === undefined ? [] : [['wanted gain', `${plain(targets.gainDbi, 1)} dBi`]]),
    [
      'reflector',
      `${plain(reflector.widthMm)} × ${plain(reflector.heightMm)} mm${fold === undefined ? '' : `, edges folded to the ${fold.direction}`}`,
    ],
    ['front', `the outermost layer is ${plain(top)} mm over the reflector`],
    ['mass', `${massOf(parts)} with cable and connector, without solder, cover and mount`],
    ['connector', connector?.label ?? `none: ${coax.label} ends bare`],
    [
      'cable',
      connector !== undefined && connector.mount !== 'cable' ? 'none: the connector sits at the reflector' : coax.label,
    ],
    ['revision', design.revision === '' ? 'none given' : design.revision],
    ...(design.date === undefined ? [] : [['date', design.date]]),
  ];
  return table('At a glance', ['what', 'value'], rows);
}

/** The few lines of the estimate that a builder asks for first; all of them are at the end of the plan. */
function estimateBlocks({ estimate, assembly }: PlanInput): readonly PlanBlock[] {
  const wanted = estimate.lines.filter(({ what }) => /^(?:Gain|Directivity|Half-power|Bandwidth|Resonance)/.test(what));
  const rows = wanted.map(({ what, value, error, unit, digits }) => [
    what,
    `${plain(value, digits)} ${unit}`,
    `± ${plain(error, digits)} ${unit}`,
  ]);
  const stack =
    assembly.design.layers.length > 1
      ? ' For a stack of patches they do not say where it resonates: only a field solution or the sweep does.'
      : '';
  return [
    paragraph(
      `The numbers below are an estimate from closed formulas, not a field solution and not a measurement.${stack} Build it, sweep it, and trust the sweep.`,
    ),
    ...(rows.length === 0 ? [] : [table('What to expect', ['what', 'expected', 'may be off by'], rows)]),
  ];
}
