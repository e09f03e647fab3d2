import type { Design } from '../design.ts';
import { formatLength } from '../quantity.ts';
import type { Report } from '../report.ts';

/** What must hold for a reflector of given size. */
export function checkReflector({ reflector }: Design, report: Report): void {
  if (reflector.size === 'minimum') return;
  const most = Math.min(reflector.size.widthMm, reflector.size.heightMm) / 2;
  if (reflector.cornerRadiusMm <= most) return;
  report.error({
    code: 'out-of-range',
    path: ['reflector', 'corner_radius'],
    value: formatLength(reflector.cornerRadiusMm),
    allowed: 'is more than half the shorter side',
    remedy: `give at most ${formatLength(most)}`,
  });
}
