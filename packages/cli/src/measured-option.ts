import { usageFailure } from './failure.ts';
import { visible } from './terminal.ts';

/** `layer[0].length=22.1 mm` in its two parts. */
export function pairOf(text: string): readonly [string, string] {
  const at = text.indexOf('=');
  if (at > 0) return [text.slice(0, at).trim(), text.slice(at + 1).trim()];
  throw usageFailure(`--measured ${visible(text)} cannot be understood; write it like layer[0].length="22.1 mm"`);
}
