import { RULES_CAUTION } from '@sheetwave/rf';

/** What stands under every result, in sentences. */
export function linkCautions(): readonly string[] {
  return [
    RULES_CAUTION,
    'Keep people out of the front of the antenna while it sends. The distances are for the general public and sending without pause; medical implants may need more.',
    'Masts, roofs and overhead lines kill: fall protection, never alone, not in wind, wet or thunder, and 1.5 mast lengths from any conductor. Loads on a building or mast are to be checked by someone qualified, under your local code.',
    'Earthing, lightning protection and mains must be designed by someone qualified under your local electrical code. Never send into an open cable.',
  ];
}
