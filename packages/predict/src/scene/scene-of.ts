import { GRID_RULES } from '@sheetwave/field';
import type { Assembly } from '@sheetwave/geometry';
import type { FeedModel, PredictionQuality } from '../prediction.ts';
import { boardParts } from './boards.ts';
import { coverPart, type SceneCover } from './cover.ts';
import { sceneDoubts } from './doubts.ts';
import { type Feeds, feedsOf, type PinModel } from './feeds.ts';
import { sceneLevels } from './levels.ts';
import { plateParts } from './plates.ts';
import { postParts } from './posts.ts';
import { reflectorParts } from './reflector.ts';
import { rodParts } from './rods.ts';
import { joinParts, type ScenePart, type TracedScene } from './scene-parts.ts';

export interface SceneOptions {
  /** Default `as-built`. */
  readonly feed?: FeedModel;
  /** Default `normal`: ports under lines are one cell high. */
  readonly quality?: PredictionQuality;
  /** Default `wire`. */
  readonly pins?: PinModel;
  /** A flat cover in front; default none. */
  readonly cover?: SceneCover;
}

export interface AntennaScene extends TracedScene {
  readonly ports: Feeds['ports'];
  /** Plain sentences: what the scene leaves out. */
  readonly doubts: readonly string[];
}

/**
 * The solver's scene of an antenna, in metres: every size from the very assembly that the drawings are made from. Open space all
 * round; z = 0 is the front face of the reflector. Throws FieldError for a cover whose place is taken.
 */
export function sceneOf(assembly: Assembly, options: SceneOptions = {}): AntennaScene {
  const { feed = 'as-built', quality = 'normal', pins = 'wire' } = options;
  const levels = sceneLevels(assembly);
  const { cellsAcrossGap } = GRID_RULES[quality];
  const feeds = feedsOf(assembly, levels, { feed, pins, cellsAcrossGap });
  // An element at its own port has no harness.
  const isBuilt = ({ path }: ScenePart) => feed === 'as-built' || path !== 'harness';
  const parts = [
    ...reflectorParts(assembly, feed),
    ...plateParts(assembly).filter(isBuilt),
    ...boardParts(assembly, levels),
    ...postParts(assembly, levels),
    ...rodParts(assembly, levels[0]?.metalTopMm ?? 0).filter(isBuilt),
    ...feeds.parts,
  ];
  const covered = options.cover ? [coverPart(assembly, { levels, parts }, options.cover)] : [];
  return { ...joinParts([...parts, ...covered]), ports: feeds.ports, doubts: sceneDoubts(assembly, feed) };
}
