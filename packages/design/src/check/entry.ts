import type { Design } from '../design.ts';
import { formatLength } from '../quantity.ts';
import type { Report } from '../report.ts';

function checkHole({ coax: { coax, throughHoleMm, solderLandMm } }: Design, report: Report): void {
  if (throughHoleMm <= coax.pinMm) {
    report.error({
      code: 'hole-too-small',
      path: ['coax', 'through_hole'],
      value: formatLength(throughHoleMm),
      allowed: `would touch the pin of ${formatLength(coax.pinMm)}`,
      remedy: 'leave it out to take the dielectric and its clearance, or give a larger hole',
    });
  }
  if (solderLandMm > throughHoleMm) return;
  report.error({
    code: 'land-too-small',
    path: ['coax', 'solder_land'],
    value: formatLength(solderLandMm),
    allowed: 'is not larger than the hole through the reflector',
    remedy: `give more than ${formatLength(throughHoleMm)}`,
  });
}

function checkConnector({ coax: { coax, connector }, reflector }: Design, report: Report): void {
  if (connector === undefined) return;
  const path = ['coax', 'connector'];
  const value = `"${connector.id}"`;
  if (connector.mount === 'board' && reflector.material.kind === 'sheet') {
    const remedy = 'use a connector for cable, such as "sma-plug-cable", or give reflector.board';
    report.error({
      code: 'needs-board',
      path,
      value,
      allowed: 'is soldered into a board, and the reflector is a sheet',
      remedy,
    });
  }
  if (connector.impedanceOhm !== coax.impedanceOhm) {
    const allowed = `is for ${connector.impedanceOhm} ohm and the coax has ${coax.impedanceOhm} ohm`;
    report.warning({ code: 'impedance-differs', path, value, allowed, remedy: 'use a connector made for the coax' });
  }
}

/** With no harness the pin of the coax is the probe; another diameter cannot be meant. */
function checkPin({ coax: { coax }, feed, harness }: Design, report: Report): void {
  if (harness.kind !== 'none' || feed.kind !== 'probe') return;
  if (Math.abs(feed.probeDiameterMm - coax.pinMm) <= 0.1) return;
  report.warning({
    code: 'probe-is-pin',
    path: ['feed', 'probe_diameter'],
    value: formatLength(feed.probeDiameterMm),
    allowed: `differs from the pin of the coax, which is the probe here and has ${formatLength(coax.pinMm)}`,
    remedy: 'leave it out to take the pin, or use another coax',
  });
}

/** The cable must come through the reflector without touching, and fit its connector. */
export function checkEntry(design: Design, report: Report): void {
  checkHole(design, report);
  checkConnector(design, report);
  checkPin(design, report);
}
