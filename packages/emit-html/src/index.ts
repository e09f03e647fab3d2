export { planHtml } from './plan-html.ts';
