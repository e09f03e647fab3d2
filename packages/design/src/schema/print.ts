import { z } from 'zod';
import { printProcesses } from '../print-process.ts';
import { choiceField, lengthField, quantityField } from './fields.ts';

const side = lengthField(50, 2000, 'Side of the bed.');

/** `[print]` */
export const printSection = z
  .strictObject({
    process: choiceField(
      printProcesses,
      'How parts are printed: filament (molten plastic, the default) or resin (cured by light). The defaults of the other fields follow from it.',
    ).optional(),
    bed: z
      .tuple([side, side], { error: 'two lengths; write them as bed = ["220 mm", "220 mm"]' })
      .meta({
        description:
          'Width and depth of the print bed; no jig is made larger. Default ["220 mm", "220 mm"], resin ["120 mm", "68 mm"]. Two lengths as text with their unit.',
      })
      .optional(),
    hole_allowance: lengthField(
      0,
      2,
      'Added to the diameter of printed holes, which come out small. Every hole of a jig stands upright on the bed, so one value serves. Default 0.2 mm, resin 0.1 mm.',
    ).optional(),
    fit_clearance: lengthField(
      0,
      2,
      'Play between a printed jig and what it holds. Default 0.15 mm, resin 0.1 mm.',
    ).optional(),
    wall: lengthField(0.4, 20, 'Thickness of printed walls. Default 2 mm.').optional(),
    elephant_foot: lengthField(
      0,
      2,
      'How far the first printed layers spread; edges on the bed are bevelled by as much. Default 0.3 mm, resin 0.2 mm.',
    ).optional(),
    spring_back: quantityField(
      'angle',
      { min: 0, max: 45 },
      'How far a bend of a rod opens again when it is let go. Bending jigs bend by as much more. Default 3 deg.',
    ).optional(),
    bushing: lengthField(
      2,
      40,
      'Outside diameter of the drill bushings that go into drilling jigs. Default: none, the printed hole guides the drill.',
    ).optional(),
  })
  .meta({ description: 'What your printer needs, and the jigs it prints.' });
