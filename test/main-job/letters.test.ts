/** Letters that the faces in the PDF files do not have. */
import { makePack } from '@sheetwave/pack';
import { expect, it } from 'vitest';
import { describeWithClients } from '../clients/client.ts';
import { wordsOf } from '../clients/pdf-clients.ts';
import { exampleText } from '../plan-of-example.ts';

async function packNamed(name: string, more = '') {
  const text = exampleText('laser-single-2g4').replace(/^name = .*$/m, `name = ${JSON.stringify(name)}`);
  const made = await makePack({ designText: `${text}${more}`, toolVersion: '0.0.0' });
  if (!made.ok) throw new Error(JSON.stringify(made.findings));
  return made;
}

// The DejaVu faces have no Chinese signs (their list of glyphs, status.txt: confirmed) and do have Latin, Greek and Cyrillic.
const made = await packNamed('Heron 水门 Łódź Ψ');

it('are named in a warning that says in which text they are', () => {
  const found = made.findings.filter(({ code }) => code === 'unprintable-letters');
  expect(found).toMatchObject([{ severity: 'warning', path: 'name', value: '水 门' }]);
  expect(found[0]?.line).toBeGreaterThan(0);
});

it('are as they were in the page for the screen and in the summary', () => {
  for (const path of ['report.html', 'summary.md']) {
    const bytes = made.files.find((file) => file.path === path)?.bytes;
    expect(new TextDecoder().decode(bytes)).toContain('Heron 水门 Łódź Ψ');
  }
});

it('are warned of once for the label of own stock, and not at all when there are none', async () => {
  const own = exampleText('laser-single-2g4').replace('sheet = "brass-0.8"', 'sheet = "mine"');
  expect(own).toContain('"mine"');
  const sheet =
    '\n[stock.sheet.mine]\nlabel = "黄铜"\nmaterial = "brass"\nthickness = "0.8 mm"\nsizes = [["200 mm", "300 mm"]]\n';
  const pack = await makePack({ designText: `${own}${sheet}`, toolVersion: '0.0.0' });
  const found = pack.findings.filter(({ code }) => code === 'unprintable-letters');
  expect(found.map(({ path, value }) => [path, value])).toEqual([['stock.sheet.mine.label', '黄 铜']]);
});

describeWithClients(['pdftotext'], 'letters that no face has', () => {
  it('print as a question mark, and those that it has as they are', () => {
    for (const path of ['build-plan.pdf', 'templates/reflector-drill-map.pdf']) {
      const words = wordsOf(made.files.find((file) => file.path === path)?.bytes ?? new Uint8Array());
      expect(words.replace(/\s+/g, ' '), path).toContain('Heron ?? Łódź Ψ');
    }
  });
});
