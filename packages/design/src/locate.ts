import type { Finding } from './finding.ts';
import { pathText } from './path.ts';
import type { Locate, Position } from './report.ts';
import { type Place, scanText } from './toml-scan.ts';

/** Finds nothing: for designs that come from no text. */
export const locateNothing: Locate = () => undefined;

function positionOf(text: string, offset: number): Position {
  const before = text.slice(0, offset);
  return { line: before.split('\n').length, column: offset - before.lastIndexOf('\n') };
}

/** `a.b[0].c` → `a.b[0]` → `a.b` → `a` → undefined. A full stop inside quotes only makes the steps smaller. */
function around(path: string): string | undefined {
  const end = Math.max(path.lastIndexOf('.'), path.lastIndexOf('['));
  return end > 0 ? path.slice(0, end) : undefined;
}

function nearestPosition(text: string, places: ReadonlyMap<string, Place>, path: string): Position | undefined {
  for (let own: string | undefined = path; own !== undefined; own = around(own)) {
    const offset = places.get(own)?.key;
    if (offset !== undefined) return positionOf(text, offset);
  }
  return undefined;
}

/**
 * Finds keys in TOML text that has been parsed without error: the place of a key, or of the nearest table around a key that is not there.
 * The text is scanned when the first place is asked for.
 */
export function locateIn(text: string): Locate {
  let places: ReadonlyMap<string, Place> | undefined;
  return (path) => {
    places ??= scanText(text);
    return nearestPosition(text, places, pathText(path));
  };
}

/**
 * The findings with their place in the text of the design file they are about, for those found after reading. What has a place keeps it.
 * The text must have been read without a syntax error.
 */
export function placeFindings(findings: readonly Finding[], text: string): readonly Finding[] {
  if (findings.every((finding) => finding.line !== undefined)) return findings;
  const places = scanText(text);
  return findings.map((finding) =>
    finding.line === undefined ? { ...finding, ...nearestPosition(text, places, finding.path) } : finding,
  );
}
