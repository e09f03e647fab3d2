import { plain } from '@sheetwave/drawings';
import type { Assembly, HarnessRun } from '@sheetwave/geometry';

/** One arm of a level of the harness, from its junction outward. */
export interface HarnessLevel {
  /** 0 is nearest the coax. */
  readonly level: number;
  readonly stretches: readonly Stretch[];
}

interface Stretch {
  readonly role: HarnessRun['role'];
  readonly run: HarnessRun;
  /** From the junction, along the arm. */
  readonly fromMm: number;
  readonly toMm: number;
}

/** The stretches of every level, along one of its arms: they are alike. */
export function harnessLevels({ harness }: Assembly): readonly HarnessLevel[] {
  const levels = [...new Set(harness.map(({ level }) => level))].sort((a, b) => a - b);
  return levels.map((level) => {
    const [arm = []] = harness.find((split) => split.level === level)?.arms ?? [];
    let at = 0;
    const stretches = arm.map((run) => {
      const fromMm = at;
      at += run.lengthMm;
      return { role: run.role, run, fromMm, toMm: at };
    });
    return { level, stretches };
  });
}

/** `from 4 to 19 mm from the middle of the coax pin, each way`. */
export const stretchWords = ({ level }: Pick<HarnessLevel, 'level'>, { fromMm, toMm }: Stretch): string =>
  `from ${plain(fromMm)} to ${plain(toMm)} mm from the middle of ${level === 0 ? 'the coax pin' : `the joint to level ${level - 1}, on level ${level}`}, each way`;
