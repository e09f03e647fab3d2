import type { EtchFilm, Paper } from '../design.ts';
import type { ReadFile } from '../schema/design-file.ts';

export function paperOf(paper: ReadFile['paper']): Paper {
  return { size: paper?.size ?? 'a4', marginMm: paper?.margin ?? 8, overlapMm: paper?.overlap ?? 10 };
}

export function etchFilmOf(etch: ReadFile['etch']): EtchFilm {
  return {
    film: etch?.film ?? 'positive',
    mirror: etch?.mirror ?? true,
    fill: etch?.fill ?? 'solid',
    measuredMm: { x: etch?.measured?.x ?? 100, y: etch?.measured?.y ?? 100 },
  };
}
