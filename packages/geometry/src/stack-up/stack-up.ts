import type { Finding } from '@sheetwave/design';
import type { Assembly } from '../assembly.ts';
import { fieldFindings } from './field-findings.ts';
import { holeLineFindings } from './hole-line-findings.ts';
import { poleFindings } from './pole-findings.ts';
import { threadFindings } from './thread-findings.ts';
import { toolFindings } from './tool-findings.ts';
import { touchFindings } from './touch-findings.ts';

/**
 * Adds up every screw, spacer, washer, sheet and nut as they will be put together: threads that meet or hold too little, parts that
 * touch, tools that find no room, holes that cut a line, spacers where the field is, and what a pole behind the reflector presses on.
 * An error cannot be built; a warning works badly. Each finding gives its numbers, and its place and parts where it has them.
 */
export function stackUpFindings(assembly: Assembly): Finding[] {
  return [
    ...threadFindings(assembly),
    ...touchFindings(assembly),
    ...toolFindings(assembly),
    ...holeLineFindings(assembly),
    ...fieldFindings(assembly),
    ...poleFindings(assembly),
  ];
}
