import type { Design, Finding } from '@sheetwave/design';
import { circularHand } from '@sheetwave/geometry';
import { leftText, moneyText, numberText, sheetSize, totalText } from '@sheetwave/plan';
import { estimateSection } from './estimate-section.ts';
import { STEPS } from './file-purpose.ts';
import { bullets, plain, section, table } from './markdown.ts';
import { predictionSection } from './prediction/prediction-section.ts';
import type { Summary } from './summary.ts';

/** The summary for the builder, as Markdown. `findingText` words a finding. */
export function summaryPage(summary: Summary, findingText: (finding: Finding) => string): string {
  const { design, findings, notes } = summary;
  const blocks = [
    `# ${plain(design.name)}${design.revision === '' ? '' : `, revision ${plain(design.revision)}`}`,
    whatItIs(design),
    section('Before you start', bullets(summary.cautions)),
    section('Worth knowing', bullets([...findings.map((f) => plain(findingText(f))), ...notes.map(plain)])),
    section('Parts', partsTable(summary)),
    section('Sheet to buy', sheetsTable(summary)),
    section('What it costs', costsText(summary)),
    section('Dimensions', dimensionsText(summary)),
    section('Holes', holesText(summary)),
    section('Bends', bendsTable(summary)),
    section(
      'What to expect, from the field solver',
      summary.predictionReport ? predictionSection(summary.predictionReport) : '',
    ),
    section(summary.predictionReport ? 'The first estimate' : 'What to expect', estimateSection(summary.estimate)),
    section('Which file for which step', filesText(summary)),
    `Made by sheetwave ${plain(summary.toolVersion)} from the design file that pack.json carries.`,
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}

/** Cut corners turn the field; which pair gives which hand is derived in the design package. */
function fieldWords(design: Design): string {
  const hand = circularHand(design);
  if (hand === undefined) return `The electric field is ${design.lattice.orientation} with the antenna upright.`;
  const corners = hand === 'right-hand' ? 'lower left and upper right' : 'upper left and lower right';
  return `Polarisation is circular, ${hand} (IEEE): seen from the front with the feed below the centre, the ${corners} corners are cut. The cut sets how round it is; no closed form says that, so measure it with a linear antenna turned in front of it.`;
}

function whatItIs(design: Design): string {
  const { rows, columns } = design.lattice;
  const count = rows * columns;
  const elements = count === 1 ? 'one element' : `${count} elements (${rows} x ${columns}, rows x columns)`;
  const band = `${ghz(design.band.lowHz)} to ${ghz(design.band.highHz)} GHz`;
  const layers = design.layers.length === 1 ? 'one patch' : `${design.layers.length} stacked patches`;
  const lines = [
    `A flat panel antenna for ${band}: ${elements}, each of ${layers}. ${fieldWords(design)}`,
    ...(design.date === undefined ? [] : [`Date: ${plain(design.date)}.`]),
    ...(design.notes.trim() === '' ? [] : [plain(design.notes)]),
  ];
  return lines.join('\n\n');
}

const ghz = (hz: number) => numberText(hz / 1e9, 4);

function partsTable({ parts }: Summary): string {
  const rows = parts.map((part) => [
    part.id,
    plain(part.name),
    String(part.quantity),
    plain(part.label),
    plain(part.size),
    plain(part.process),
    numberText(part.massG),
    plain(part.note),
  ]);
  return table(['part', 'what', 'quantity', 'made of', 'size', 'process', 'g each', 'note'], rows);
}

function sheetsTable({ sheets }: Summary): string {
  const rows = sheets.map((line) => [
    String(line.quantity),
    plain(line.label),
    sheetSize(line),
    plain(line.process),
    leftText(line),
    line.files.length === 1 ? `\`${line.files[0]}\`` : `\`${line.files[0]}\` to \`${line.files.at(-1)}\``,
  ]);
  return table(['sheets', 'of', 'size', 'process', 'parts and what is left', 'laid out in'], rows);
}

function costsText({ costs }: Summary): string {
  if (costs === undefined) return '';
  const { currency, lines, total, rule } = costs;
  const rows = lines.map(({ id, amount, price, cost }) => [id, plain(amount), price, moneyText(cost, currency)]);
  const last = [plain(totalText(costs)), '', '', moneyText(total, currency)];
  return `${table(['stock', 'paid for', 'price', currency], [...rows, last])}\n\n${rule}`;
}

function dimensionsText({ dimensions, reflectorRule }: Summary): string {
  const rows = dimensions
    .filter(isForThePage)
    .map((line) => [line.part, plain(line.what), numberText(line.valueMm), line.count === 1 ? '' : String(line.count)]);
  return [table(['part', 'what', 'mm', 'places'], rows), plain(reflectorRule)]
    .filter((block) => block !== '')
    .join('\n\n');
}

/** Places of holes fill pages in a large array; the drill maps and summary.json have them all. */
function isForThePage({ what }: Summary['dimensions'][number]): boolean {
  return !/ hole \d+ from /.test(what);
}

function holesText({ holes }: Summary): string {
  const rows = holes.map((hole) => [
    hole.part,
    hole.purpose,
    numberText(hole.diameterMm),
    hole.plated ? 'metal-lined' : '',
    String(hole.each),
    String(hole.inAll),
  ]);
  if (rows.length === 0) return '';
  const counts = table(['part', 'for', 'diameter mm', 'lining', 'in one', 'in all'], rows);
  return `${counts}\n\nWhere each one goes: see the drill maps.`;
}

function bendsTable({ bends }: Summary): string {
  const rows = bends.map((bend) => [
    bend.part,
    String(bend.bend),
    numberText(bend.atMm),
    `${numberText(bend.angleDeg, 1)}°`,
    `${numberText(bend.twistDeg, 1)}°`,
    numberText(bend.insideRadiusMm),
  ]);
  const head = [
    'part',
    'bend',
    'its middle, mm from the start of the straight blank',
    'angle',
    'turn the rod first by',
    'inside radius mm',
  ];
  return table(head, rows);
}

function filesText({ files }: Summary): string {
  const blocks = STEPS.map((step) => {
    const paths = files.filter((file) => step.kinds.some((kind) => kind === file.kind)).map((file) => file.path);
    return paths.length === 0 ? '' : `**${step.title}.** ${step.how}\n\n${bullets(paths.map((path) => `\`${path}\``))}`;
  });
  return blocks.filter((block) => block !== '').join('\n\n');
}
