import type { Design, Finding } from '@sheetwave/design';
import { STEPS } from './file-purpose.ts';
import { bullets, plain, section, table } from './markdown.ts';
import { numberText } from './number-text.ts';
import type { EstimateLine, EstimateSummary, Summary } from './summary.ts';

/** The summary for the builder, as Markdown. `findingText` words a finding. */
export function summaryPage(summary: Summary, findingText: (finding: Finding) => string): string {
  const { design, findings, notes } = summary;
  const blocks = [
    `# ${plain(design.name)}${design.revision === '' ? '' : `, revision ${plain(design.revision)}`}`,
    whatItIs(design),
    section('Before you start', bullets(summary.cautions)),
    section('Worth knowing', bullets([...findings.map((f) => plain(findingText(f))), ...notes.map(plain)])),
    section('Parts', partsTable(summary)),
    section('Dimensions', dimensionsText(summary)),
    section('Holes', holesTable(summary)),
    section('What to expect', estimateText(summary.estimate)),
    section('Which file for which step', filesText(summary)),
    `Made by sheetwave ${plain(summary.toolVersion)} from the design file that pack.json carries.`,
  ];
  return `${blocks.filter((block) => block !== '').join('\n\n')}\n`;
}

function whatItIs(design: Design): string {
  const { rows, columns, orientation } = design.lattice;
  const count = rows * columns;
  const elements = count === 1 ? 'one element' : `${count} elements (${rows} x ${columns}, rows x columns)`;
  const band = `${ghz(design.band.lowHz)} to ${ghz(design.band.highHz)} GHz`;
  const layers = design.layers.length === 1 ? 'one patch' : `${design.layers.length} stacked patches`;
  const lines = [
    `A flat panel antenna for ${band}: ${elements}, each of ${layers}. The electric field is ${orientation} with the antenna upright.`,
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
    part.massG === undefined ? '' : numberText(part.massG),
    plain(part.note),
  ]);
  return table(['part', 'what', 'quantity', 'made of', 'size', 'process', 'g each', 'note'], rows);
}

function dimensionsText({ dimensions, reflectorRule }: Summary): string {
  const rows = dimensions.map((line) => [plain(line.what), numberText(line.valueMm)]);
  return [table(['what', 'mm'], rows), plain(reflectorRule)].filter((block) => block !== '').join('\n\n');
}

function holesTable({ holes }: Summary): string {
  const rows = holes.map((hole) => [
    hole.part,
    hole.purpose,
    numberText(hole.diameterMm),
    hole.plated ? 'metal-lined' : '',
    String(hole.each),
    String(hole.inAll),
  ]);
  return table(['part', 'for', 'diameter mm', '', 'in one', 'in all'], rows);
}

function estimateText({ lines, leavesOut }: EstimateSummary): string {
  if (lines.length === 0) return '';
  const rows = lines.map((line) => [
    plain(line.what),
    shown(line, line.value),
    `± ${shown(line, line.error)}`,
    basis(line),
  ]);
  const blocks = [
    'From closed formulas, not from a field calculation and not from a measurement. The second number says how far off it may be.',
    table(['what', 'expected', 'may be off by', 'rests on'], rows),
  ];
  if (leavesOut.length > 0) blocks.push(`The estimate leaves out:\n\n${bullets(leavesOut.map(plain))}`);
  return blocks.join('\n\n');
}

function shown(line: EstimateLine, value: number): string {
  return `${numberText(value, line.digits)} ${plain(line.unit)}`.trim();
}

function basis(line: EstimateLine): string {
  return [line.origin, ...line.doubts.map((doubt) => `Outside the range of the formula: ${doubt}`)]
    .map(plain)
    .join(' ');
}

function filesText({ files }: Summary): string {
  const blocks = STEPS.map((step) => {
    const paths = files.filter((file) => step.kinds.some((kind) => kind === file.kind)).map((file) => file.path);
    return paths.length === 0 ? '' : `**${step.title}.** ${step.how}\n\n${bullets(paths.map((path) => `\`${path}\``))}`;
  });
  return blocks.filter((block) => block !== '').join('\n\n');
}
