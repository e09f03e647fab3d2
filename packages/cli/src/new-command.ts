import { type NewStack, newDesignText } from '@sheetwave/design';
import { startingStack } from '@sheetwave/predict';
import type { Context } from './context.ts';
import { EXIT } from './exit-code.ts';
import { usageFailure } from './failure.ts';
import { writeNewFile } from './new-design-file.ts';
import { quantityOption } from './quantity-option.ts';
import type { Outcome } from './report.ts';
import { visible } from './terminal.ts';

/** `sheetwave new [FILE]`. */
export async function runNew({ terminal, operand = 'design.toml', switches, values }: Context): Promise<Outcome> {
  const { workingFolder } = terminal;
  const start = wantedStack(values);
  const text = newDesignText({ start });
  await writeNewFile({ name: operand, workingFolder, text, force: switches.has('force') });
  const name = visible(operand);
  const next =
    start === undefined
      ? `Change what you need, then: sheetwave make ${name}`
      : `Its sizes are a start; look at the ranges under [free], then: sheetwave size ${name} --round 0.1`;
  return { exitCode: EXIT.done, json: { file: operand }, text: `Wrote ${name}. ${next}\n` };
}

/** The edges that a design may have, Hz. */
const BAND = { least: 300e6, most: 30e9 };
const FREQUENCY = { units: { GHz: 1e9, MHz: 1e6 }, example: '"5.15 GHz"' };
const MOST_VSWR = 20;

/** The stack that the options ask for; undefined without a band. Throws a usage Failure for what cannot be. */
function wantedStack(values: ReadonlyMap<string, string>): NewStack | undefined {
  const lowHz = quantityOption(values, 'low', FREQUENCY);
  const highHz = quantityOption(values, 'high', FREQUENCY);
  if (lowHz === undefined && highHz === undefined) {
    const alone = ['layers', 'vswr'].find((name) => values.has(name));
    if (alone !== undefined) throw usageFailure(`--${alone} needs a band; give --low and --high`);
    return undefined;
  }
  if (lowHz === undefined || highHz === undefined)
    throw usageFailure('a band has two edges; give both --low and --high');
  if (!(BAND.least <= lowHz && lowHz < highHz && highHz <= BAND.most))
    throw usageFailure(
      `--low ${visible(values.get('low') ?? '')} --high ${visible(values.get('high') ?? '')} is no band; --low has to be the lower one, both between 300 MHz and 30 GHz`,
    );
  const vswr = numberOption(values, 'vswr', 2);
  if (!(vswr >= 1.01 && vswr <= MOST_VSWR))
    throw usageFailure(
      `--vswr ${visible(values.get('vswr') ?? '')} is no ratio to hope for; give 1.01 to ${MOST_VSWR}`,
    );
  return { lowHz, highHz, vswr, ...startingStack(layersOf(values), (lowHz + highHz) / 2) };
}

function layersOf(values: ReadonlyMap<string, string>): number {
  const layers = numberOption(values, 'layers', 2);
  if ([1, 2, 3].includes(layers)) return layers;
  throw usageFailure(
    `--layers ${visible(values.get('layers') ?? '')} is not known; give 1, 2 or 3, and add more in the file`,
  );
}

const NUMBER = /^\s*\d+(?:\.\d+)?\s*$/;

/** NaN for what is no plain number. */
function numberOption(values: ReadonlyMap<string, string>, name: string, usual: number): number {
  const text = values.get(name);
  if (text === undefined) return usual;
  return NUMBER.test(text) ? Number(text) : Number.NaN;
}
