import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from './commands.ts';
import { EXIT } from './exit-code.ts';
import { commandHelp, generalHelp } from './help.ts';

const pages = [generalHelp(), ...COMMANDS.map(commandHelp)];

describe('help', () => {
  it('names every command, every option and every exit code', () => {
    for (const command of COMMANDS) {
      expect(generalHelp()).toContain(`  ${command.name} ${command.operand}`);
      for (const option of command.options) expect(commandHelp(command)).toContain(`--${option.name}`);
    }
    for (const page of pages) for (const code of Object.values(EXIT)) expect(page).toMatch(new RegExp(`\\b${code}\\b`));
  });
  it('and the README of the command names them too', () => {
    const readme = readFileSync(new URL('../README.md', import.meta.url), 'utf8');
    for (const { name, summary } of COMMANDS) expect(readme, summary).toContain(`| \`sheetwave ${name} `);
    for (const code of [0, 1, 2, 3, 4, 5, 130]) expect(readme).toContain(`| ${code} |`);
  });
  it('fits 80 columns and ends in one line break', () => {
    for (const page of pages) {
      expect(Math.max(...page.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
      expect(page).toMatch(/[^\n]\n$/);
    }
  });
});
