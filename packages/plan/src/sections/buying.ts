import { alternativesOf } from '../buying/alternatives.ts';
import { costsOf, totalText } from '../buying/costs.ts';
import { moneyText } from '../buying/currency.ts';
import { shoppingList } from '../buying/shopping-list.ts';
import { heading, list, type PlanBlock, paragraph, type Section, type Tool, table } from '../document.ts';
import type { PlanInput } from '../input.ts';
import { massOf } from '../mass-total.ts';
import { numberText } from '../number-text.ts';
import type { PartLine } from '../parts-list.ts';
import { leftText, sheetSize } from '../sheet-lines.ts';

/** Parts to make and to buy, stock to cut them from, and tools. */
export function buying(input: PlanInput, tools: readonly Tool[]): Section {
  return {
    id: 'buy',
    title: 'What to buy and have at hand',
    blocks: [
      paragraph(
        'Names in the column “stock” are those of the tables and of the design file; parts.csv holds the same list for a spreadsheet.',
      ),
      partsTable(input),
      paragraph(
        `Mass of the finished antenna: ${massOf(input.parts)}, the sum of its parts; solder, cover and mount come on top.`,
      ),
      ...sheetsTable(input),
      ...lengthsTable(input),
      ...costBlocks(input),
      heading('consumables', 'Besides'),
      list(besides(input)),
      heading('tools', 'Tools'),
      list(tools.map(({ name, detail }) => (detail === '' ? name : `${name}: ${detail}`))),
    ],
  };
}

const HEAD = ['part', 'quantity', 'stock', 'size', 'g each', 'instead of it'];

function partsTable({ assembly, parts }: PlanInput): PlanBlock {
  const rows = parts.map((line) => {
    const part = assembly.parts.find(({ id }) => id === line.id);
    const instead = part === undefined ? [] : alternativesOf(part);
    return [
      line.name,
      String(line.quantity),
      line.stock === '' ? line.label : line.stock,
      line.size,
      numberText(line.massG),
      instead.join(', '),
    ];
  });
  return table('Parts of one antenna', HEAD, rows);
}

function sheetsTable({ sheets }: PlanInput): readonly PlanBlock[] {
  if (sheets.length === 0) return [];
  const rows = sheets.map((line) => [
    String(line.quantity),
    line.stock,
    sheetSize(line),
    leftText(line),
    line.files.length === 1 ? (line.files[0] ?? '') : `${line.files[0]} to ${line.files.at(-1)}`,
  ]);
  return [table('Sheet to buy', ['sheets', 'stock', 'size', 'parts and what is left', 'laid out in'], rows)];
}

function lengthsTable({ assembly, sheets }: PlanInput): readonly PlanBlock[] {
  const lines = shoppingList(assembly, sheets).filter(({ name }) => name !== 'sheet to buy');
  if (lines.length === 0) return [];
  return [table('Lengths and hardware to buy', ['what', 'quantity', 'stock', 'size', 'note'], lines.map(rowOf))];
}

const rowOf = ({ name, quantity, stock, size, note }: PartLine): readonly string[] => [
  name,
  String(quantity),
  stock,
  size,
  note,
];

function costBlocks({ assembly, parts, sheets }: PlanInput): readonly PlanBlock[] {
  const { design } = assembly;
  const shopping = shoppingList(assembly, sheets);
  const costs = costsOf({ design, parts: assembly.parts, lines: parts, shopping });
  if (costs === undefined) return [];
  const { currency, lines, total } = costs;
  const rows = lines.map(({ id, amount, price, cost }) => [id, amount, price, moneyText(cost, currency)]);
  return [
    table(
      'What it costs, by the prices of the design file',
      ['stock', 'paid for', 'price', currency],
      [...rows, [totalText(costs), '', '', moneyText(total, currency)]],
    ),
    paragraph(costs.rule),
  ];
}

function besides({ assembly, parts }: PlanInput): readonly string[] {
  const small = parts.filter((line) => line.process === 'bought' && /nut|screw|spacer|washer/.test(line.label));
  return [
    ...(small.length === 0 ? [] : ['One or two more of every screw, nut, washer and spacer than the list says.']),
    'Electronic solder, rosin flux, isopropanol, fine abrasive paper.',
    ...(assembly.parts.some(({ form }) => form === 'plate')
      ? ['Gloves and safety glasses; paper and glue for the templates.']
      : []),
    'For outdoors: self-amalgamating tape, neutral-curing sealant, clear lacquer.',
  ];
}
