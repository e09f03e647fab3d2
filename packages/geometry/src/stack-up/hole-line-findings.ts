import type { Finding } from '@sheetwave/design';
import type { Assembly } from '../assembly.ts';
import { BoxGrid, grownBox } from '../box-grid.ts';
import { boundsOfPoints } from '../contour-measure.ts';
import { mm } from '../finding.ts';
import type { Hole } from '../outline.ts';
import { distanceToSegment } from '../reflector/obstacles.ts';
import { harnessLines, type Line } from './bodies.ts';
import { andMore, placedError, placedWarning } from './placed.ts';

/** Holes that belong to the line: it ends in them. */
const ENTRIES: ReadonlySet<Hole['purpose']> = new Set(['coax', 'feed', 'connector-pin', 'connector-post']);

/** Holes of the reflector that cut an etched line, or that take the metal from under a rod or strip. */
export function holeLineFindings(assembly: Assembly): Finding[] {
  const reflector = assembly.parts.find((part) => part.id === 'reflector');
  if (reflector?.form !== 'plate' && reflector?.form !== 'board') return [];
  const lines = new BoxGrid<Line>(20);
  for (const line of harnessLines(assembly))
    lines.add(grownBox(boundsOfPoints([line.from, line.to]), line.radiusMm), line);
  const cut = reflector.outline.holes
    .filter(({ purpose }) => !ENTRIES.has(purpose))
    .flatMap((hole) =>
      lines.near(grownBox(boundsOfPoints([hole.centre]), hole.diameterMm / 2)).map((line) => ({
        hole,
        line,
        intoMm: line.radiusMm + hole.diameterMm / 2 - distanceToSegment(hole.centre, line),
      })),
    )
    .filter(({ intoMm }) => intoMm > 1e-9)
    .sort((a, b) => b.intoMm - a.intoMm);
  const [worst] = cut;
  if (worst === undefined) return [];
  const { hole, line, intoMm } = worst;
  const etched = assembly.design.harness.kind === 'microstrip';
  const found = {
    code: etched ? 'hole-cuts-line' : 'hole-under-line',
    path: 'reflector',
    value: `a ${hole.purpose} hole of ${mm(hole.diameterMm)}${andMore(new Set(cut.map((one) => one.hole)).size)}`,
    allowed: etched
      ? `cuts ${mm(Math.min(intoMm, 2 * line.radiusMm))} out of ${line.what} ${mm(2 * line.radiusMm)} wide`
      : `lies ${mm(intoMm)} under ${line.what}, where the current of the line returns: its impedance rises there`,
    remedy: `move it ${mm(intoMm)} aside, or change the stems of the harness`,
    at: { ...hole.centre, z: 0 },
    parts: ['reflector', line.part],
  };
  return [etched ? placedError(found) : placedWarning(found)];
}
