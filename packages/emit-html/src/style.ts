/** Looks of the page: readable without colours, by night, and on paper. Figures keep their own white paper. */
export const STYLE = `
:root { color-scheme: light dark; --ink: #1a1a1a; --paper: #ffffff; --quiet: #555555; --rule: #b5b5b5; }
@media (prefers-color-scheme: dark) { :root { --ink: #e8e8e8; --paper: #16181b; --quiet: #b0b0b0; --rule: #55595f; } }
body { font: 1rem/1.5 "DejaVu Sans", Verdana, sans-serif; color: var(--ink); background: var(--paper); max-width: 54rem; margin: 2rem auto; padding: 0 1rem; }
h1, h2, h3 { line-height: 1.25; }
h2 { margin-top: 3rem; border-bottom: 2px solid var(--ink); }
h3 { margin-top: 2rem; }
table { border-collapse: collapse; margin: 1rem 0; font-size: 0.9rem; display: block; overflow-x: auto; }
caption { text-align: left; font-weight: bold; }
th, td { text-align: left; vertical-align: top; padding: 0.25rem 0.6rem; border-bottom: 1px solid var(--rule); }
thead th { border-bottom: 2px solid var(--ink); }
figure { margin: 1.5rem 0; }
figure svg { background: #ffffff; max-width: 100%; height: auto; display: block; }
figcaption { color: var(--quiet); font-size: 0.9rem; }
aside { border-left: 6px solid var(--ink); padding-left: 1rem; }
dl { display: grid; grid-template-columns: max-content 1fr; gap: 0 1rem; font-size: 0.9rem; color: var(--quiet); }
dd { margin: 0; overflow-wrap: anywhere; }
.check { font-weight: bold; }
@media print {
  body { max-width: none; margin: 0; color: #000000; background: #ffffff; }
  nav { display: none; }
  figure, tr, .step { break-inside: avoid; }
  h2, h3 { break-after: avoid; }
}
`;
