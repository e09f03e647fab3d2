import type { PlanFigure, Step } from '../document.ts';
import type { ToolId } from './tools.ts';

/** A step with what it seldom has left out. */
export function step(of: {
  readonly id: string;
  readonly title: string;
  readonly parts?: readonly string[];
  readonly tools: readonly ToolId[];
  readonly files?: readonly string[];
  readonly lines: readonly string[];
  readonly check?: string;
  readonly figure?: PlanFigure | undefined;
}): Step {
  return { parts: [], files: [], check: '', figure: undefined, ...of };
}
