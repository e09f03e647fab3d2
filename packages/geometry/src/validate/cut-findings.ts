import type { Finding } from '@sheetwave/design';
import type { BoardPart, PlatePart } from '../assembly.ts';
import { etchCompensated } from '../etch.ts';
import { errorFinding, mm } from '../finding.ts';
import { toolPath } from '../tool-path.ts';

/** Outlines and copper whose inside is so narrow that the tool path, or the artwork grown for etching, would run into itself. */
export function cutFindings(part: PlatePart | BoardPart): Finding[] {
  return part.form === 'plate' ? plateFindings(part) : boardFindings(part);
}

function plateFindings({ id, outline, process }: PlatePart): Finding[] {
  if (succeeds(() => toolPath({ ...outline, holes: [] }, process))) return [];
  return [
    errorFinding('too-narrow-to-cut', `part ${id}`, {
      value: 'a slot or corner',
      allowed: `is too narrow for a part ${process.label} with a cut of ${mm(process.kerfMm)} and inside corners of ${mm(process.smallestRadiusMm)}`,
      remedy: 'make it wider, or choose a process with a finer cut',
    }),
  ];
}

function boardFindings({ id, copper, process }: BoardPart): Finding[] {
  const pieces = [...copper.top, ...copper.bottom];
  if (succeeds(() => pieces.map((piece) => etchCompensated(piece, process.undercutMm)))) return [];
  return [
    errorFinding('too-fine-to-etch', `part ${id}`, {
      value: 'a slot or corner of its copper',
      allowed: `closes when the artwork grows by the undercut of ${mm(process.undercutMm)}`,
      remedy: 'make it wider, or use thinner copper',
    }),
  ];
}

/** Offsets throw where nothing right is left, which here is the builder's to know. */
function succeeds(make: () => unknown): boolean {
  try {
    make();
    return true;
  } catch {
    return false;
  }
}
