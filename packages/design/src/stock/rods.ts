import { type MaterialName, materials } from './materials.ts';
import type { Rod, Tube } from './types.ts';

const LENGTHS_MM = [300, 500, 1000];

function rod(prefix: string, material: MaterialName, diameterMm: number): Rod {
  return {
    kind: 'rod',
    id: `${prefix}-rod-${diameterMm}`,
    label: `${prefix} rod ${diameterMm} mm`,
    material: materials[material],
    diameterMm,
    lengthsMm: LENGTHS_MM,
    source: 'metric trade diameter (1.588 mm is 1/16 in, 3.175 mm is 1/8 in)',
    certainty: 'memory',
  };
}

function tube(outerMm: number, wallMm: number): Tube {
  return {
    kind: 'tube',
    id: `brass-tube-${outerMm}x${wallMm}`,
    label: `brass tube ${outerMm} x ${wallMm} mm`,
    material: materials.brass,
    outerMm,
    boreMm: Math.round((outerMm - 2 * wallMm) * 1000) / 1000,
    lengthsMm: LENGTHS_MM,
    source: 'metric trade size, outside diameter x wall',
    certainty: 'memory',
  };
}

export const rods: readonly Rod[] = [
  ...[1, 1.5, 1.588, 2, 2.5, 3, 3.175, 4, 5].map((d) => rod('brass', 'free-cutting-brass', d)),
  ...[1, 1.5, 2, 2.5, 3, 4].map((d) => rod('copper', 'copper', d)),
];

export const tubes: readonly Tube[] = [
  tube(2, 0.45),
  tube(2, 0.5),
  tube(2.5, 0.45),
  tube(3, 0.45),
  tube(3, 0.5),
  tube(4, 0.45),
  tube(4, 0.5),
  tube(4, 1),
  tube(5, 0.45),
  tube(5, 0.5),
  tube(5, 1),
  tube(6, 0.5),
  tube(6, 1),
  tube(8, 0.5),
  tube(8, 1),
];
