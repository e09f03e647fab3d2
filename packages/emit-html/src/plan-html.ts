import { inlineSvg } from '@sheetwave/emit-svg';
import {
  type PlanBlock,
  type PlanDocument,
  type PlanFigure,
  type PlanTable,
  type Section,
  type Step,
  stepNeeds,
  stepTitle,
} from '@sheetwave/plan';
import { element, type Markup, trusted } from './markup.ts';
import { STYLE } from './style.ts';

/**
 * The build plan as one page for the screen: everything is in it, nothing is fetched and nothing runs. The same plan gives the
 * same bytes, UTF-8.
 */
export function planHtml(plan: PlanDocument): Uint8Array {
  const head = element('head', {}, [
    element('meta', { charset: 'utf-8' }),
    element('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
    element('meta', { name: 'description', content: plan.about }),
    element('title', {}, [plan.title]),
    element('style', {}, [trusted(STYLE)]),
  ]);
  const header = element('header', {}, [
    element('h1', {}, [plan.title]),
    element('p', {}, [plan.subtitle]),
    element('nav', { 'aria-label': 'Contents' }, [element('ol', {}, plan.sections.map(entry))]),
  ]);
  const main = element('main', {}, [
    ...plan.sections.map((section) => sectionOf(plan, section)),
    ...plan.fullSize.map(fullSizeOf),
  ]);
  const page = element('html', { lang: plan.language }, [head, element('body', {}, [header, main])]);
  return new TextEncoder().encode(`<!DOCTYPE html>\n${page.html}`);
}

const entry = ({ id, title }: Section): Markup => element('li', {}, [element('a', { href: `#${id}` }, [title])]);

function sectionOf(plan: PlanDocument, { id, title, blocks }: Section): Markup {
  return element('section', { id, 'aria-labelledby': `${id}-title` }, [
    element('h2', { id: `${id}-title` }, [title]),
    ...blocks.map((block) => blockOf(plan, block)),
  ]);
}

function blockOf(plan: PlanDocument, block: PlanBlock): Markup {
  switch (block.kind) {
    case 'heading':
      return element('h3', { id: block.id }, [block.text]);
    case 'paragraph':
      return element('p', {}, [block.text]);
    case 'list':
      return listOf('ul', block.items);
    case 'notice':
      return element('aside', { role: 'note' }, [
        element('p', { class: 'check' }, [block.title]),
        listOf('ul', block.items),
      ]);
    case 'table':
      return tableOf(block);
    case 'figure':
      return figureOf(block.figure);
    case 'step':
      return stepOf(plan, block.step);
  }
}

const listOf = (tag: 'ul' | 'ol', items: readonly string[]): Markup =>
  element(
    tag,
    {},
    items.map((item) => element('li', {}, [item])),
  );

function tableOf({ caption, head, rows }: PlanTable): Markup {
  return element('table', {}, [
    element('caption', {}, [caption]),
    element('thead', {}, [rowOf(head.map((cell) => element('th', { scope: 'col' }, [cell])))]),
    element(
      'tbody',
      {},
      rows.map((row) => rowOf(row.map((cell) => element('td', {}, [cell])))),
    ),
  ]);
}

const rowOf = (cells: readonly Markup[]): Markup => element('tr', {}, cells);

/** A drawing at 1:1 without what belongs on a sheet of its own: the screen is no ruler. */
function fullSizeOf({ title, about, drawing, draw }: PlanDocument['fullSize'][number]): Markup {
  const svg = inlineSvg({ title, about, box: drawing, draw });
  const picture = element('div', { role: 'img', 'aria-label': `${title}. ${about}` }, [trusted(svg)]);
  return element('figure', {}, [picture, element('figcaption', {}, [title])]);
}

/** The drawing is one picture with its text, so that a reading program does not spell out its numbers. */
function figureOf(figure: PlanFigure): Markup {
  const { caption, alt, box } = figure;
  const svg = inlineSvg({ title: caption, about: alt, box, draw: (pen) => figure.draw(pen) });
  const picture = element('div', { role: 'img', 'aria-label': alt }, [trusted(svg)]);
  return element('figure', { id: figure.id }, [picture, element('figcaption', {}, [caption])]);
}

function stepOf(plan: PlanDocument, step: Step): Markup {
  const needs = stepNeeds(plan, step).flatMap(({ label, words }) => [
    element('dt', {}, [label]),
    element('dd', {}, [words]),
  ]);
  return element('section', { class: 'step', id: `step-${step.id}`, 'aria-labelledby': `step-${step.id}-title` }, [
    element('h3', { id: `step-${step.id}-title` }, [stepTitle(plan, step)]),
    ...(needs.length === 0 ? [] : [element('dl', {}, needs)]),
    listOf('ol', step.lines),
    ...(step.figure === undefined ? [] : [figureOf(step.figure)]),
    ...(step.check === '' ? [] : [element('p', { class: 'check' }, [`Right when: ${step.check}`])]),
  ]);
}
