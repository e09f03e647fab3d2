import { renderFinding } from '@sheetwave/design';
import { antennaExploded, stackSection } from '@sheetwave/pictures';
import { figureBlock, list, type Section } from '../document.ts';
import { ofPicture } from '../figure-block.ts';
import type { PlanInput } from '../input.ts';

/** The whole pulled apart and in section, with what needs care. */
export function views({ assembly, findings, notes }: PlanInput): Section {
  const care = [...findings.map((finding) => renderFinding(finding)), ...notes];
  return {
    id: 'views',
    title: 'How it goes together',
    blocks: [
      figureBlock(
        ofPicture(
          'picture-exploded',
          'Every part pulled apart along its axis.',
          antennaExploded(assembly, findings, 95),
        ),
      ),
      figureBlock(
        ofPicture(
          'picture-section',
          'A cut through one stack, with its heights over the reflector’s front.',
          stackSection(assembly, 85),
        ),
      ),
      ...(care.length === 0
        ? []
        : [{ kind: 'heading' as const, id: 'care', text: 'Worth knowing of this design' }, list(care)]),
    ],
  };
}
