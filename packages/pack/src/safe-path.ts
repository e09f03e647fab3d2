/** One step of a path that every common file system takes: letters, digits, `.`, `_`, `-`, not starting with a dot or a dash. */
const STEP = /^[A-Za-z0-9_][A-Za-z0-9._-]*$/;
/** Device names that Windows reserves in every folder, with or without an ending. */
const RESERVED = /^(con|prn|aux|nul|com[0-9]|lpt[0-9])(\.|$)/i;

/**
 * Whether a path may name a file of a pack: relative, `/` between the steps, never out of the pack folder,
 * at most 200 characters.
 */
export function isSafePath(path: string): boolean {
  if (path.length > 200) return false;
  return path.split('/').every((step) => STEP.test(step) && !step.endsWith('.') && !RESERVED.test(step));
}
