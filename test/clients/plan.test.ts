import { planHtml } from '@sheetwave/emit-html';
import { planPdf } from '@sheetwave/emit-pdf';
import { expect, test } from 'vitest';
import { exampleText, planOf } from '../plan-of-example.ts';
import { describeWithClients, runClient } from './client.ts';
import { withFile } from './dxf-clients.ts';
import { catalogueEntry, fontsOf, infoOf, structureOf, wordsOf } from './pdf-clients.ts';
import { boxOf, type DrawnPage, tracePdf } from './pdf-trace.ts';

const brass = planOf(exampleText('brass-2x2-5g8'));
const letter = planOf(`${exampleText('etched-2x2-5g5')}\n[paper]\nsize = "letter"\n`);

const prints = [
  // ISO 216: A4 is 210 x 297 mm. ANSI/ASME Y14.1: letter is 8.5 x 11 inch. Confirmed.
  { name: 'rod stacks on A4', ...brass, size: [210, 297] as const },
  { name: 'etched on letter', ...letter, size: [215.9, 279.4] as const },
].map((one) => ({ ...one, pdf: planPdf(one.plan, one.design.paper), html: planHtml(one.plan) }));

test.each(prints)('the plan of $name has the same bytes when it is made again', ({ plan, design, pdf, html }) => {
  expect(planPdf(plan, design.paper)).toEqual(pdf);
  expect(planHtml(plan)).toEqual(html);
});

describeWithClients(
  ['qpdf', 'pdfinfo', 'pdffonts', 'pdftotext', 'mutool'],
  'the printed plan in other programs',
  () => {
    test.each(prints)(
      '$name is sound, on its paper, in embedded faces, with title and language',
      ({ pdf, plan, size }) => {
        expect(structureOf(pdf)).toContain('No syntax or stream encoding errors found');
        const info = infoOf(pdf);
        expect(info.title).toBe(plan.title);
        expect(info.pages.length).toBeGreaterThan(5);
        for (const [width, height] of info.pages) {
          expect(width).toBeCloseTo(size[0], 1);
          expect(height).toBeCloseTo(size[1], 1);
        }
        expect(fontsOf(pdf).length).toBe(2);
        expect(fontsOf(pdf).every(({ embedded }) => embedded)).toBe(true);
        expect(catalogueEntry(pdf, 'Lang')).toBe('(en-GB)');
        expect(catalogueEntry(pdf, 'ViewerPreferences')).toContain('/DisplayDocTitle true');
        expect(catalogueEntry(pdf, 'MarkInfo')).toContain('/Marked true');
      },
    );

    test.each(prints)('$name is read in the order of its content, by words and by structure', ({ pdf, plan }) => {
      const words = wordsOf(pdf).replace(/\s+/g, ' ');
      const structure = withFile('plan.pdf', pdf, (file) => runClient('pdfinfo', ['-struct-text', file]).stdout);
      for (const text of [words, structure]) {
        const steps = plan.steps.map((_, index) => text.lastIndexOf(`Step ${index + 1}: `));
        expect(steps.every((at) => at >= 0)).toBe(true);
        expect([...steps].sort((a, b) => a - b)).toEqual(steps);
      }
      const tags = structure.split('\n').map((line) => /^\s*(\w+)(?: \(block\))?:?(?=\s|$)/.exec(line)?.[1]);
      const count = (tag: string): number => tags.filter((one) => one === tag).length;
      const blocks = plan.sections.flatMap((section) => section.blocks);
      const figures = blocks.filter((block) => block.kind === 'figure' || (block.kind === 'step' && block.step.figure));
      expect(count('H1')).toBe(1);
      expect(count('H2')).toBe(plan.sections.length);
      // These boards and sheets fit on one page each at 1:1.
      expect(count('Figure')).toBe(figures.length + plan.fullSize.length);
      expect(count('Table')).toBe(blocks.filter(({ kind }) => kind === 'table').length);
    });

    test.each(prints)('$name has an outline of its sections and steps', ({ pdf, plan }) => {
      const outline = withFile('plan.pdf', pdf, (file) => runClient('mutool', ['show', file, 'outline']).stdout);
      for (const { title } of plan.sections) expect(outline).toContain(`"${title}"`);
      for (const { title } of [...plan.steps, ...plan.fullSize]) expect(outline).toContain(title);
    });

    // Drawn lengths: the check bar of every page, and parts at the scale that their caption gives, by the design.
    test('the bar is 50 mm long and the parts of the rod stacks are as large as they say', () => {
      const [rod] = prints;
      if (rod === undefined) throw new Error('no plan');
      const pages = tracePdf(rod.pdf, { colours: true });
      const read = pages.slice(0, pages.length - rod.plan.fullSize.length);
      for (const page of read) expect(hasBox(page, 50, 0)).toBe(true);
      // Design: reflector 130 x 136 mm at 1:1, driven patch 18 x 23.2 mm at 5:1, disc of 17.2 mm at 5:1, hole of 3.4 mm in it.
      for (const [width, height] of [
        [130, 136],
        [90, 116],
        [86, 86],
        [17, 17],
      ] as const)
        expect(
          pages.some((page) => hasBox(page, width, height)),
          `${width} x ${height}`,
        ).toBe(true);
      expect(pages.some((page) => hasBox(page, 130.2, 136.2))).toBe(false);
    });
  },
);

/** True when some path of the page is as wide and as high, within 0.1 mm. */
function hasBox({ paths }: DrawnPage, widthMm: number, heightMm: number): boolean {
  return paths.some(({ rings }) => {
    const box = boxOf(rings.flat());
    return Math.abs(box.maxX - box.minX - widthMm) < 0.1 && Math.abs(box.maxY - box.minY - heightMm) < 0.1;
  });
}

describeWithClients(['xmllint'], 'the page for the screen in an HTML parser', () => {
  const ask = (html: Uint8Array, path: string): string =>
    withFile('report.html', html, (file) => runClient('xmllint', ['--html', '--xpath', path, file]).stdout.trim());

  test.each(prints)(
    '$name has a title, a language, heads for its tables, texts for its figures, and nothing from elsewhere',
    ({ html, plan }) => {
      expect(ask(html, 'string(/html/head/title)')).toBe(plan.title);
      expect(ask(html, 'string(/html/@lang)')).toBe('en-GB');
      expect(ask(html, 'count(//section/h2)')).toBe(String(plan.sections.length));
      expect(ask(html, 'count(//table[not(caption) or not(.//th[@scope])])')).toBe('0');
      expect(ask(html, 'count(//*[local-name()="figure"])')).toBe(
        ask(html, 'count(//*[@role="img" and string-length(@aria-label) > 15])'),
      );
      expect(ask(html, 'count(//script | //link | //img | //iframe | //object | //embed)')).toBe('0');
      expect(ask(html, 'count(//@src)')).toBe('0');
      expect(ask(html, 'count(//@href[not(starts-with(., "#"))])')).toBe('0');
      // Every link within the page arrives somewhere.
      expect(ask(html, 'count(//a[not(substring-after(@href, "#") = //@id)])')).toBe('0');
      expect(new TextDecoder().decode(html)).not.toMatch(/url\(|@import/);
    },
  );
});

describeWithClients(['chromium'], 'the page for the screen in a browser', () => {
  test('shows its figures as large as they are', () => {
    const [rod] = prints;
    if (rod === undefined) throw new Error('no plan');
    const dom = withFile(
      'report.html',
      rod.html,
      (file) =>
        runClient('chromium', ['--headless', '--no-sandbox', '--disable-gpu', '--dump-dom', `file://${file}`]).stdout,
    );
    expect(dom).toContain(`<title>${rod.plan.title}</title>`);
    expect(dom.match(/<svg/g)?.length).toBe(new TextDecoder().decode(rod.html).match(/<svg/g)?.length);
  });
});
