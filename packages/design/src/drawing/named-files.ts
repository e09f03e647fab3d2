import { parse } from 'smol-toml';

/** Why a design may not name this file, or undefined when it may: inside the design's folder, and a kind that is read. */
export function problemAsDrawingName(name: string): string | undefined {
  if (/[\\:\p{Cc}]/u.test(name) || name.startsWith('/')) return 'is not a path below the folder of the design';
  if (name.split('/').some((step) => step === '' || step === '.' || step === '..'))
    return 'is not a plain path below the folder of the design';
  return /\.(?:dxf|svg)$/i.test(name) ? undefined : 'is neither a .dxf nor an .svg file';
}

/**
 * The drawings that a design file names, each once, in its order: what to read beside it and hand to `readDesign`.
 * Empty for text that is not a design file; names that a design may not use are left out, `readDesign` reports them.
 */
export function namedFiles(text: string): readonly string[] {
  const layers = layersOf(text);
  const names = layers.flatMap((layer) => {
    const { shape, file } = (layer ?? {}) as { readonly shape?: unknown; readonly file?: unknown };
    return shape === 'outline' && typeof file === 'string' && problemAsDrawingName(file) === undefined ? [file] : [];
  });
  return [...new Set(names)];
}

function layersOf(text: string): readonly unknown[] {
  try {
    const { layer } = parse(text);
    return Array.isArray(layer) ? layer : [];
  } catch {
    // `readDesign` says what is wrong with the text.
    return [];
  }
}
