export type * from './design.ts';
export type { Finding } from './finding.ts';
export type { Process } from './stock/process.ts';
export type * from './stock/types.ts';
