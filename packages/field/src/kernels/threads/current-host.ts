import { browserHost } from '../../browser.ts';
import { nodeHost } from '../../node.ts';
import type { Host } from './host.ts';

/** The workers of this process or page; undefined where there are none. */
export const currentHost = (): Host | undefined => nodeHost() ?? browserHost();
