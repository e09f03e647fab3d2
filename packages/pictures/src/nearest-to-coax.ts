import type { Assembly } from '@sheetwave/geometry';

/** Index of the element nearest the coax: its surroundings show how the harness begins. Throws when there is no element. */
export function nearestToCoax(assembly: Assembly): number {
  const distances = assembly.elements.map(({ centre }) =>
    Math.hypot(centre.x - assembly.coaxPoint.x, centre.y - assembly.coaxPoint.y),
  );
  const nearest = distances.indexOf(Math.min(...distances));
  if (nearest < 0) throw new Error('an antenna has at least one element');
  return nearest;
}
