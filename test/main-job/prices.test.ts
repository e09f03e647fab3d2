/** Prices of the design file, from the file to everything that is printed. */
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { exampleText, planOfPack } from '../plan-of-example.ts';

const PRICES = `
[prices]
m3-nut-brass = "4.20 EUR per 100 pieces"
m3-mf-6-brass = "3.15 EUR per 10 pieces"
m3-pan-6-brass = "0.09 EUR per piece"
semi-rigid-141 = "7.95 EUR per metre"
n-plug-cable = "6.40 EUR per piece"
"brass-1.0" = "14.25 EUR per kg"
"brass-0.5" = "95.50 EUR per m2"
"brass-rod-1.5" = "3.35 EUR per metre"
"brass-0.8" = "1000 EUR per sheet"
`;

/**
 * By hand from the parts list (computed): 4 nuts are one pack of 100, 12 spacers two of 10, 4 screws; 253.1 mm of coax × 7.95 = 2.012;
 * a sheet of 200 × 300 × 1 mm of brass at 8440 kg/m³ weighs 0.5064 kg × 14.25 = 7.216; one of 100 × 200 mm is 0.02 m² × 95.50; a rod of
 * 300 mm × 3.35 = 1.005, a half, goes up. The tube has no price; what is not used costs nothing.
 */
const BY_HAND: Readonly<Record<string, number>> = {
  'm3-nut-brass': 4.2,
  'm3-mf-6-brass': 6.3,
  'm3-pan-6-brass': 0.36,
  'semi-rigid-141': 2.01,
  'n-plug-cable': 6.4,
  'sheet-brass-1.0-1': 7.22,
  'sheet-brass-0.5-1': 1.91,
  'length-brass-rod-1.5': 1.01,
};
const TOTAL = 29.41;

describe('a design with prices', async () => {
  const { plan, pack } = await planOfPack(`${exampleText('brass-2x2-5g8')}${PRICES}`);
  const text = (path: string) => new TextDecoder().decode(pack.get(path));

  it('has them in parts.csv, with the total last', () => {
    const rows: Record<string, string>[] = parse(text('parts.csv'), { columns: true });
    const priced = rows.filter((row) => row['cost EUR'] !== '' && row.part !== 'total');
    expect(Object.fromEntries(priced.map((row) => [row.part, Number(row['cost EUR'])]))).toEqual(BY_HAND);
    expect(rows.at(-1)).toMatchObject({
      part: 'total',
      what: 'total without: brass-tube-2.5x0.45',
      'cost EUR': '29.41',
    });
    expect(rows.at(-1)?.note).toContain('rounded to 0.01 EUR');
  });

  it('has them in the summary, for people and for programs', () => {
    expect(text('summary.md')).toContain('| total without: brass-tube-2.5x0.45 |  |  | 29.41 |');
    expect(JSON.parse(text('summary.json')).costs).toMatchObject({ currency: 'EUR', total: TOTAL });
  });

  it('has them in the build plan', () => {
    const blocks = plan.sections.find(({ id }) => id === 'buy')?.blocks ?? [];
    const table = blocks.find((block) => block.kind === 'table' && block.caption.startsWith('What it costs'));
    expect(table).toMatchObject({
      rows: expect.arrayContaining([['m3-mf-6-brass', '2 × 10 pieces', '3.15 EUR per 10 pieces', '6.30']]),
    });
    expect(text('report.html')).toContain('29.41');
  });
});

it('a design without prices has no word of them', async () => {
  const { pack } = await planOfPack(exampleText('brass-2x2-5g8'));
  expect(new TextDecoder().decode(pack.get('parts.csv'))).not.toMatch(/cost|price/);
  expect(JSON.parse(new TextDecoder().decode(pack.get('summary.json'))).costs).toBeUndefined();
});
