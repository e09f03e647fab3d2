import type { Reflector } from '../design.ts';
import { resolveClamp } from './clamp.ts';
import { type Context, lookUp } from './context.ts';
import { resolveFold } from './fold.ts';
import { etchedOn } from './processes.ts';

function material(context: Context): Reflector['material'] | undefined {
  const { sheet: sheetId, board: boardId } = context.file.reflector;
  if ((sheetId === undefined) === (boardId === undefined)) {
    return context.report.error({
      code: sheetId === undefined ? 'missing-field' : 'too-many-fields',
      path: ['reflector'],
      allowed: sheetId === undefined ? 'has neither a sheet nor a board' : 'has both a sheet and a board',
      remedy: 'give exactly one, such as sheet = "brass-1.0" or board = "ptfe-glass-0.787-35"',
    });
  }
  if (sheetId !== undefined) {
    const sheet = lookUp(context, { kind: 'sheet', id: sheetId, path: ['reflector', 'sheet'] });
    return sheet && { kind: 'sheet', sheet };
  }
  const laminate = lookUp(context, { kind: 'laminate', id: boardId ?? '', path: ['reflector', 'board'] });
  return laminate && { kind: 'board', laminate };
}

/** The reflector, or undefined after reporting what is wrong. */
export function resolveReflector(context: Context): Reflector | undefined {
  const { reflector } = context.file;
  const stuff = material(context);
  if (stuff === undefined) return undefined;
  const { size = 'minimum', mounting_holes: holes } = reflector;
  const [fold, clamp] = [resolveFold(context, stuff), resolveClamp(context)];
  return {
    size: size === 'minimum' ? size : { widthMm: size.width, heightMm: size.height },
    material: stuff,
    edgeMarginMm: reflector.edge_margin,
    cornerRadiusMm: reflector.corner_radius ?? 0,
    mounting: holes && { diameterMm: holes.diameter, insetMm: holes.inset },
    ...(fold && { fold }),
    ...(clamp && { clamp }),
    grain: reflector.grain ?? false,
    process:
      stuff.kind === 'board'
        ? etchedOn(context.processes[reflector.process ?? 'etch'], stuff.laminate.copperMm)
        : context.processes[reflector.process ?? 'hand'],
  };
}
