import type { Report } from '../report.ts';
import type { ReadFile } from '../schema/design-file.ts';

function isEtchedFirst(file: ReadFile): boolean {
  const [first] = file.layer;
  return file.reflector.board !== undefined && first?.sheet === undefined && first?.board === undefined;
}

/** Etched lines lie on the reflector's board and end in a patch that is etched beside them. */
function checkEtched(file: ReadFile, report: Report): void {
  if (isEtchedFirst(file)) return;
  const board = file.reflector.board;
  report.error({
    code: 'needs-board',
    path: ['harness', 'kind'],
    value: '"microstrip"',
    allowed: board === undefined ? 'needs a board to be etched on' : 'needs a driven patch on the same board',
    remedy:
      board === undefined
        ? 'give reflector.board in place of reflector.sheet, or use a rod or strip harness'
        : 'leave sheet and board out of the first layer',
  });
}

/** Which feed goes with which harness. */
export function checkHarnessKind(file: ReadFile, report: Report): void {
  const harness = file.harness?.kind ?? 'none';
  const feed = file.feed.kind ?? 'probe';
  if (harness === 'microstrip') checkEtched(file, report);
  if ((harness === 'microstrip') === (feed !== 'probe')) return;
  report.error({
    code: 'feed-without-harness',
    path: ['feed', 'kind'],
    value: `"${feed}"`,
    allowed: harness === 'microstrip' ? 'does not meet an etched line' : 'needs an etched line to the patch',
    remedy:
      harness === 'microstrip'
        ? 'write kind = "inset" or "edge" under [feed]'
        : 'write kind = "microstrip" under [harness], or kind = "probe" here',
  });
}
