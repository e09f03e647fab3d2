import type { Finding, Material } from '@sheetwave/design';
import { postDetuning } from '@sheetwave/rf';
import type { Assembly, Placement } from '../assembly.ts';
import { mm } from '../finding.ts';
import { feedDirection, shapeExtent } from '../lattice.ts';
import { stackPosts } from './bodies.ts';
import { placedWarning } from './placed.ts';

/** Relative permittivities (memory): polyamide 3.2, PTFE 2.1, printed PETG, ASA or PLA about 2.8. */
const PERMITTIVITY: Readonly<Record<string, number>> = { nylon: 3.2, ptfe: 2.1 };
const PRINTED_PERMITTIVITY = 2.8;
/** A shift of half a per cent is about what a tenth of a millimetre in the length does. */
const LEAST_SHIFT = 0.005;
/** Metal this far from the centre line, in lengths, is where the field is no longer small: sin(0.2 pi) is 0.59 (common practice, no source). */
const METAL_REACH = 0.2;
const SLICES = 64;

/** The first spacer of each element stands in the field of the driven patch: dielectric lowers its frequency, metal off the line shorts it. */
export function fieldFindings(assembly: Assembly): Finding[] {
  const [driven] = assembly.design.layers;
  if (!driven?.spacer) return [];
  const { heightMm: lengthMm, widthMm } = shapeExtent(driven.shape, 'vertical');
  const post = stackPosts(assembly).find(({ part, at }) => isFirstSpacer(assembly, part, at.z));
  const placement = assembly.placements.find((one) => one.part === post?.part && one.layer === 0);
  if (!post || !placement) return [];
  const offsetMm = offCentreMm(assembly, placement);
  const about = { path: 'layer[0].spacer', value: post.what, at: { ...post.at, z: post.lowMm }, parts: [post.part] };
  if (post.metal) return metalFinding(about, { reachMm: Math.abs(offsetMm) + post.radiusMm, lengthMm });
  const shift = detuning(
    { lengthMm, widthMm },
    { permittivity: permittivityOf(assembly, post.part), radiusMm: post.radiusMm, offsetMm },
  );
  if (shift > -LEAST_SHIFT) return [];
  const { lowHz, highHz } = assembly.design.band;
  const mhz = (Math.abs(shift) * (lowHz + highHz)) / 2e6;
  return [
    placedWarning({
      ...about,
      code: 'spacer-lowers-frequency',
      allowed: `lowers the frequency of the driven patch by about ${(-100 * shift).toFixed(1)} % (${mhz.toFixed(0)} MHz): it is a dielectric, and ${mm(2 * post.radiusMm)} wide where the field is not zero`,
      remedy: 'use a brass or a thinner spacer, or make the patch shorter by as much',
    }),
  ];
}

const isFirstSpacer = (assembly: Assembly, part: string, z: number): boolean =>
  assembly.placements.some((one) => one.part === part && one.layer === 0 && one.at.z === z);

/** Distance of the spacer from the line through the centre of its patch on which the field is zero. */
function offCentreMm({ elements, design }: Assembly, { element, at }: Placement): number {
  const centre = element === undefined ? undefined : elements[element]?.centre;
  if (!centre) return 0;
  const along = feedDirection(design.lattice.orientation);
  return (at.x - centre.x) * along.x + (at.y - centre.y) * along.y;
}

function permittivityOf({ parts }: Assembly, id: string): number {
  const part = parts.find((one) => one.id === id);
  if (part?.form === 'printed-spacer') return PRINTED_PERMITTIVITY;
  const material: Material | undefined =
    part?.form === 'bought' && 'material' in part.item ? part.item.material : undefined;
  return (material && PERMITTIVITY[material.name]) ?? PRINTED_PERMITTIVITY;
}

/** The post cut into slices along the length, so that a wide one on the centre line counts where the field is. */
export function detuning(
  patch: { readonly lengthMm: number; readonly widthMm: number },
  post: { readonly permittivity: number; readonly radiusMm: number; readonly offsetMm: number },
): number {
  const { radiusMm, permittivity, offsetMm } = post;
  const half = patch.lengthMm / 2;
  const slices = Array.from({ length: SLICES }, (_, i) => ((2 * i + 1) / SLICES - 1) * radiusMm);
  const posts = slices.map((x) => ({
    permittivity,
    areaM2: (2 * Math.sqrt(radiusMm ** 2 - x ** 2) * ((2 * radiusMm) / SLICES)) / 1e6,
    offsetM: Math.max(-half, Math.min(half, offsetMm + x)) / 1000,
  }));
  return postDetuning({ lengthM: patch.lengthMm / 1000, widthM: patch.widthMm / 1000 }, posts).value;
}

function metalFinding(
  about: { path: string; value: string; at: { x: number; y: number; z: number }; parts: string[] },
  { reachMm, lengthMm }: { readonly reachMm: number; readonly lengthMm: number },
): Finding[] {
  const most = METAL_REACH * lengthMm;
  if (reachMm <= most + 1e-9) return [];
  return [
    placedWarning({
      ...about,
      code: 'metal-off-centre',
      allowed: `is metal and reaches ${mm(reachMm)} from the centre line of a patch ${mm(lengthMm)} long; beyond ${mm(most)} it shorts the field and raises the frequency`,
      remedy: 'use a thinner spacer on the centre line',
    }),
  ];
}
