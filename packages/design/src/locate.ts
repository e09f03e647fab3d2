import type { Locate } from './report.ts';

/** Finds nothing: for designs that come from no text. */
export const locateNothing: Locate = () => undefined;
