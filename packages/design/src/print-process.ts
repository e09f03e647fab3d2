import type { Certainty } from './stock/types.ts';

/** `filament`: molten plastic laid in lines. `resin`: cured by light, layer by layer. */
export const printProcesses = ['filament', 'resin'] as const;
export type PrintProcess = (typeof printProcesses)[number];

/** What a way of printing usually needs, mm. */
export interface PrintProcessRow {
  readonly holeAllowanceMm: number;
  readonly fitClearanceMm: number;
  readonly elephantFootMm: number;
  readonly bedMm: { readonly x: number; readonly y: number };
  readonly source: string;
  readonly certainty: Certainty;
}

export const PRINT_PROCESSES: Readonly<Record<PrintProcess, PrintProcessRow>> = {
  filament: {
    holeAllowanceMm: 0.2,
    fitClearanceMm: 0.15,
    elephantFootMm: 0.3,
    bedMm: { x: 220, y: 220 },
    source:
      'builders record upright holes 0.1 to 0.3 mm small; outsides within 0.1 to 0.2 mm, and first layers that spread by 0.1 to 0.3 mm, are shop practice',
    certainty: 'memory',
  },
  resin: {
    holeAllowanceMm: 0.1,
    fitClearanceMm: 0.1,
    elephantFootMm: 0.2,
    bedMm: { x: 120, y: 68 },
    source: 'sizes within 0.05 to 0.1 mm are shop practice; over-exposed first layers spread too',
    certainty: 'memory',
  },
};
