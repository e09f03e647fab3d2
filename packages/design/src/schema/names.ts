import { z } from 'zod';
import { say } from './fields.ts';

/** Names that some systems keep for devices, with or without an ending. */
const RESERVED = /^(?:con|prn|aux|nul|com[0-9]|lpt[0-9])(?:\..*)?$/i;

/** Why a text cannot be part of a file name, or undefined when it can. */
function problemAsFileName(name: string): string | undefined {
  if (RESERVED.test(name.trim())) return 'is a name that some systems keep for a device';
  if (/^\.+$/.test(name)) return 'is not a file name';
  if (name !== name.trim()) return 'begins or ends with a space';
  if (name.endsWith('.')) return 'ends with a full stop, which some systems drop';
  return undefined;
}

function checkFileName(name: string, context: z.RefinementCtx): void {
  const problem = problemAsFileName(name);
  if (problem === undefined) return;
  context.addIssue({
    code: 'custom',
    message: say({ allowed: problem, remedy: 'choose another name' }),
    params: { code: 'bad-name' },
  });
}

const DESIGN_NAME = {
  error: say({
    allowed: '1 to 80 printable characters without \\ / : * ? " < > |',
    remedy: 'choose another name, such as "Heron Lock 5.8"',
  }),
};

/** Name of a design: also the stem of its files. */
export const designNameField = z
  .string(DESIGN_NAME)
  .regex(/^[^\p{C}\p{Zl}\p{Zp}\\/:*?"<>|]{1,80}$/u, DESIGN_NAME)
  .superRefine(checkFileName)
  .meta({
    description:
      'Name of the design, written into every file and used in file names. 1 to 80 printable characters without \\ / : * ? " < > |.',
    examples: ['Heron Lock 5.8'],
  });

const PART_NAME = {
  error: say({ allowed: '1 to 40 letters, digits or -', remedy: 'choose another name, such as "driven"' }),
};

/** Name of a layer: part of part names and file names. */
export const partNameField = z
  .string(PART_NAME)
  .regex(/^[A-Za-z0-9-]{1,40}$/, PART_NAME)
  .superRefine(checkFileName)
  .meta({
    description: 'Name of the layer: letters, digits and -. Default: driven, then parasitic-1, parasitic-2 and so on.',
  });

const STOCK_NAME = {
  error: say({ allowed: '1 to 40 letters, digits, full stops or -', remedy: 'choose another id, such as "my-brass"' }),
};

/** Id of an item of own stock. */
export const ownIdField = z.string(STOCK_NAME).regex(/^[A-Za-z0-9][A-Za-z0-9.-]{0,39}$/, STOCK_NAME);
