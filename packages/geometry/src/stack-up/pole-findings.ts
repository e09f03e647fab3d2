import type { Finding, PoleClamp } from '@sheetwave/design';
import type { Assembly } from '../assembly.ts';
import { mm } from '../finding.ts';
import { foldedReflector } from '../reflector/folded.ts';
import { reflectorUndersideMm } from '../stack-heights.ts';
import { type Post, stackPosts } from './bodies.ts';
import { placedError, placedWarning } from './placed.ts';

/** What a pole behind the reflector meets: folded edges, nuts and screw heads, and the cable that leaves there. */
export function poleFindings(assembly: Assembly): Finding[] {
  const { clamp } = assembly.design.reflector;
  if (!clamp) return [];
  return [...edgeFindings(assembly, clamp), ...nutFindings(assembly, clamp), ...cableFindings(assembly, clamp)];
}

/** From the back of the reflector to the pole at a distance from its axis, mm; infinite beside it. */
function roomMm({ poleMm, standoffMm }: PoleClamp, offMm: number): number {
  const radius = poleMm / 2;
  const off = Math.abs(offMm);
  return off >= radius ? Number.POSITIVE_INFINITY : standoffMm + radius - Math.sqrt(radius * radius - off * off);
}

/** A pole is upright, so it crosses an edge that is folded back at the top or the bottom. */
function edgeFindings(assembly: Assembly, clamp: PoleClamp): Finding[] {
  const { fold } = assembly.design.reflector;
  if (fold?.direction !== 'back') return [];
  const back = reflectorUndersideMm(assembly.design);
  const crossed = foldedReflector(assembly)?.edges.find(({ side }) => side === 'top' || side === 'bottom');
  const deep = crossed ? back - crossed.lowMm : 0;
  if (!crossed || deep <= clamp.standoffMm + 1e-9) return [];
  return [
    placedError({
      code: 'pole-meets-fold',
      path: 'reflector.clamp',
      value: `a pole ${mm(clamp.standoffMm)} behind the reflector`,
      allowed: `runs through the folded edge at the ${crossed.side}, which stands ${mm(deep)} back`,
      remedy: `fold left and right only, fold to the front, or give standoff = "${mm(Math.ceil(deep))}"`,
      at: { x: 0, y: (crossed.from.y + crossed.to.y) / 2, z: back },
      parts: ['reflector'],
    }),
  ];
}

function nutFindings(assembly: Assembly, clamp: PoleClamp): Finding[] {
  const back = reflectorUndersideMm(assembly.design);
  const behind = stackPosts(assembly).filter(({ at }) => at.z < back - 1e-9);
  const pressed = behind
    .map((post) => ({ post, intoMm: back - post.lowMm + outMm(assembly, post) - roomMm(clamp, nearestMm(post)) }))
    .filter(({ intoMm }) => intoMm > 1e-9)
    .sort((a, b) => b.intoMm - a.intoMm);
  const [worst] = pressed;
  if (!worst) return [];
  const need = Math.ceil(clamp.standoffMm + worst.intoMm);
  return [
    placedError({
      code: 'pole-on-nuts',
      path: 'reflector.clamp.standoff',
      value: `${mm(clamp.standoffMm)} between reflector and pole`,
      allowed: `lets the pole press on ${worst.post.what} behind it, which needs ${mm(worst.intoMm)} more`,
      remedy: `put brackets or blocks between them and give standoff = "${need} mm" or more`,
      at: worst.post.at,
      parts: [worst.post.part, 'reflector'],
    }),
  ];
}

/** Nearest the post comes to the plane of the pole's axis, which is upright through the middle. */
const nearestMm = ({ at, radiusMm }: Post): number => Math.max(0, Math.abs(at.x) - radiusMm);

/** What of a stud stands out of its nut. */
function outMm({ design }: Assembly, post: Post): number {
  const [first] = design.layers;
  if (post.toolMm === 0 || !post.what.includes('nut') || first?.spacer?.kind !== 'stock') return 0;
  const { washer, nut } = design.hardware;
  const material = design.reflector.material;
  const sheetMm = material.kind === 'sheet' ? material.sheet.thicknessMm : material.laminate.thicknessMm;
  return Math.max(0, first.spacer.spacer.studMm - sheetMm - (washer?.thicknessMm ?? 0) - nut.heightMm);
}

/** A cable leaves straight back and must bend before it meets the pole. */
function cableFindings({ design, coaxPoint }: Assembly, clamp: PoleClamp): Finding[] {
  const { coax, connector } = design.coax;
  const off = Math.max(0, Math.abs(coaxPoint.x) - coax.jacketMm / 2);
  // A plug on a panel or board connector and its first bend take about 40 mm (N; common practice, no source).
  const need = connector && connector.mount !== 'cable' ? 40 : coax.bendRadiusMm + coax.jacketMm;
  const room = roomMm(clamp, off);
  if (room >= need - 1e-9) return [];
  return [
    placedWarning({
      code: 'pole-on-cable',
      path: 'reflector.clamp.standoff',
      value: `${mm(room)} behind the coax`,
      allowed: `is less than the ${mm(need)} in which it can turn away from the pole`,
      remedy: `give standoff = "${Math.ceil(need - room + clamp.standoffMm)} mm" or more, or shift the coax from the pole by longer stems`,
      at: { ...coaxPoint, z: reflectorUndersideMm(design) },
      parts: [connector && connector.mount !== 'cable' ? connector.id : coax.id],
    }),
  ];
}
