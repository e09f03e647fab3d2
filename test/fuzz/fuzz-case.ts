import { brokenDesign, shakenDesign } from './change-design.ts';
import { brokenText } from './change-text.ts';
import { randomDesign } from './designs.ts';
import { type Drawing, randomDrawing } from './drawings.ts';
import { type Random, randomFrom } from './random.ts';
import { type Table, tomlOf } from './toml.ts';

/** One input for the pack: a design file and the drawings beside it. */
export interface FuzzCase {
  readonly seed: number;
  readonly kind: (typeof KINDS)[number];
  readonly designText: string;
  readonly drawings: readonly Drawing[];
}

/** Sound or nearly sound designs most often: they go furthest. */
const KINDS = ['shaken', 'shaken', 'shaken', 'shaken', 'drawn', 'drawn', 'drawn', 'broken', 'broken', 'text'] as const;

/** The case of a seed, the same on every machine. */
export function caseOf(seed: number): FuzzCase {
  const random = randomFrom(seed);
  const kind = random.pick(KINDS);
  const design = randomDesign(random);
  if (kind === 'drawn') return { seed, kind, ...drawnCase(random, design) };
  return { seed, kind, designText: textOf(random, { kind, design }), drawings: [] };
}

function textOf(random: Random, { kind, design }: { readonly kind: string; readonly design: Table }): string {
  if (kind === 'shaken') return tomlOf(shakenDesign(random, design));
  if (kind === 'broken') return tomlOf(brokenDesign(random, design));
  return brokenText(random, tomlOf(design));
}

/** The first layer, or another one, takes its outline from a drawing. */
function drawnCase(random: Random, design: Table) {
  const drawing = randomDrawing(random);
  const layers = design.layer as readonly Table[];
  const nth = random.whole(0, layers.length - 1);
  const { sheet, board, spacer, process, border } = layers[nth] ?? {};
  const kept = Object.entries({ sheet, board, spacer, process, border }).filter(([, value]) => value !== undefined);
  const drawn = {
    shape: 'outline',
    file: drawing.name,
    ...(random.chance(0.15) ? { units: random.pick(['mm', 'in', 'mil']) } : {}),
    ...(random.chance(0.2)
      ? { turn: `${random.whole(-360, 360)} deg`, centre: random.pick(['centroid', 'origin']) }
      : {}),
    ...Object.fromEntries(kept),
  } as Table;
  const feed = (design.feed as Table).kind === 'inset' ? { feed: { kind: 'edge' } } : {};
  const changed = { ...design, ...feed, layer: layers.map((layer, index) => (index === nth ? drawn : layer)) };
  const designText = tomlOf(random.chance(0.3) ? shakenDesign(random, changed) : changed);
  return { designText, drawings: random.chance(0.02) ? [] : [drawing] };
}
