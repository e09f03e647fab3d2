import type { Layer, LayerSpacer } from '../design.ts';
import type { ReadFile } from '../schema/design-file.ts';
import { clearanceHoleMm } from '../stock/threads.ts';
import { type Context, lookUp } from './context.ts';
import { etchedOn } from './processes.ts';
import { resolveShape } from './shape.ts';

type FileLayer = ReadFile['layer'][number];
const DEFAULT_BORDER_MM = 3;

/** `driven`, then `parasitic-1`, `parasitic-2` and so on, unless the file names the layer. */
export function layerName(layer: FileLayer, index: number): string {
  return layer.name ?? (index === 0 ? 'driven' : `parasitic-${index}`);
}

function etchedOnReflector(context: Context, index: number): Layer['build'] | undefined {
  if (index === 0 && context.file.reflector.board !== undefined) return { kind: 'on-reflector-board' };
  return context.report.error({
    code: 'missing-field',
    path: ['layer', index],
    allowed: 'has neither a sheet nor a board',
    remedy:
      index === 0
        ? 'give sheet = "brass-0.5", or reflector.board to etch the patch on'
        : 'give sheet = "brass-0.5" or board = "fr4-0.8-35"; only the first layer can be etched on the board of the reflector',
  });
}

function buildOf(context: Context, index: number, layer: FileLayer): Layer['build'] | undefined {
  const path = ['layer', index];
  if (layer.sheet !== undefined && layer.board !== undefined) {
    return context.report.error({
      code: 'too-many-fields',
      path,
      allowed: 'has both a sheet and a board',
      remedy: 'leave one out',
    });
  }
  if (layer.sheet !== undefined) {
    const sheet = lookUp(context, { kind: 'sheet', id: layer.sheet, path: [...path, 'sheet'] });
    return sheet && { kind: 'sheet', sheet };
  }
  if (layer.board === undefined) return etchedOnReflector(context, index);
  const laminate = lookUp(context, { kind: 'laminate', id: layer.board, path: [...path, 'board'] });
  return (
    laminate && {
      kind: 'board',
      laminate,
      copperSide: layer.copper_side ?? 'outward',
      borderMm: layer.border ?? DEFAULT_BORDER_MM,
    }
  );
}

function spacerOf(context: Context, index: number, layer: FileLayer): LayerSpacer | undefined {
  const { spacer } = layer;
  if (spacer === undefined) return undefined;
  if (typeof spacer !== 'string') return { kind: 'printed', heightMm: spacer.printed, outerMm: spacer.outer };
  const item = lookUp(context, { kind: 'spacer', id: spacer, path: ['layer', index, 'spacer'] });
  return item && { kind: 'stock', spacer: item };
}

/** Only a patch on the reflector's board goes without a spacer, and it must. */
function spacerFits(context: Context, index: number, build: Layer['build'] | undefined, layer: FileLayer): boolean {
  const etched = build?.kind === 'on-reflector-board';
  if (build === undefined || etched === (layer.spacer === undefined)) return true;
  context.report.error({
    code: etched ? 'too-many-fields' : 'missing-field',
    path: etched ? ['layer', index, 'spacer'] : ['layer', index],
    allowed: etched ? 'carries a patch that is etched on the board of the reflector' : 'has no spacer',
    remedy: etched
      ? 'leave spacer out, or give the patch a sheet or a board'
      : 'give spacer = "m3-mf-6-brass" or { printed = "6 mm", outer = "8 mm" }',
  });
  return false;
}

/** The hole is needed where a spacer holds this layer or stands on it. */
function fixingHole(context: Context, index: number, layer: FileLayer): number | undefined {
  const { hardware, layer: layers } = context.file;
  if (typeof layer.fixing_hole === 'number') return layer.fixing_hole;
  if (layer.fixing_hole === 'none') return undefined;
  const held = layer.spacer !== undefined || layers[index + 1]?.spacer !== undefined;
  return held ? clearanceHoleMm(hardware?.thread ?? 'M3', hardware?.fit ?? 'medium') : undefined;
}

function processOf(context: Context, layer: FileLayer, build: Layer['build']): Layer['process'] {
  const process = context.processes[layer.process ?? (build.kind === 'sheet' ? 'hand' : 'etch')];
  if (build.kind === 'board') return etchedOn(process, build.laminate.copperMm);
  return layer.relief === 'dog-bone' ? { ...process, insideCorners: 'dog-bone' } : process;
}

function resolveLayer(context: Context, index: number, layer: FileLayer): Layer | undefined {
  const build = buildOf(context, index, layer);
  const spacer = spacerOf(context, index, layer);
  const fits = spacerFits(context, index, build, layer);
  const process = build && processOf(context, layer, build);
  const shape = process && resolveShape(context, layer, { index, process });
  if (build === undefined || !fits || (layer.spacer !== undefined && spacer === undefined)) return undefined;
  if (process === undefined || shape === undefined) return undefined;
  return {
    name: layerName(layer, index),
    shape,
    build,
    spacer,
    fixingHoleMm: fixingHole(context, index, layer),
    grain: layer.grain ?? false,
    process,
  };
}

/** The layers, or undefined after reporting what is wrong with any of them. */
export function resolveLayers(context: Context): readonly Layer[] | undefined {
  const layers = context.file.layer.map((layer, index) => resolveLayer(context, index, layer));
  const whole = layers.filter((layer) => layer !== undefined);
  return whole.length === layers.length ? whole : undefined;
}
