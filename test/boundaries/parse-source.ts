import { isBuiltin } from 'node:module';
import { type ESTree, parseSync, Visitor } from 'vite';
import { readText } from './workspace.ts';

export interface Import {
  /** The file that imports, from the root. */
  readonly from: string;
  readonly specifier: string;
  /** Names that are imported; `*` for all of them or for a dynamic import. */
  readonly names: readonly string[];
  /** True where the compiler removes it, so that nothing is loaded. */
  readonly typeOnly: boolean;
}

export interface ParsedSource {
  readonly path: string;
  readonly imports: readonly Import[];
  /** Calls whose answer changes from run to run or from machine to machine: `Date.now`, `Math.random`, `process` … */
  readonly effects: readonly string[];
  /** Top-level statements that are not `export … from` or `export {}`. */
  readonly ownStatements: number;
}

/** Member expressions whose value depends on when, where or by whom the code is run. */
const IMPURE_MEMBERS = /^(?:Date\.now|Math\.random|performance\.now|crypto\.randomUUID|crypto\.getRandomValues)$/;
const IMPURE_GLOBALS = new Set(['fetch', 'setTimeout', 'setInterval', 'setImmediate', 'Intl', 'console']);
/** `process` is also a word of this project (how a part is made), so only what Node's object has counts. */
const OF_NODE_PROCESS =
  /^(?:env|argv|cwd|chdir|exit|exitCode|stdin|stdout|stderr|platform|arch|pid|kill|on|once|nextTick|hrtime|uptime|versions?|memoryUsage)$/;
const LOCALE_METHODS = /^(?:toLocale\w+|localeCompare)$/;

/** Reads one TypeScript file as the compiler's grammar has it, so that comments and strings are not taken for code. */
export function parseSource(path: string, text = readText(path)): ParsedSource {
  const { program, errors } = parseSync(path, text, { lang: 'ts', astType: 'ts' });
  if (errors.length > 0) throw new Error(`${path}: ${errors.map((error) => error.message).join('; ')}`);
  return {
    path,
    imports: findImports(path, program),
    effects: findEffects(program),
    ownStatements: program.body.filter((statement) => !isReExport(statement)).length,
  };
}

function findImports(from: string, program: ESTree.Program): Import[] {
  const imports: Import[] = [];
  const add = (specifier: string, names: readonly string[], typeOnly: boolean) =>
    imports.push({ from, specifier, names, typeOnly });
  new Visitor({
    ImportDeclaration(node) {
      const names = node.specifiers.map((one) => (one.type === 'ImportSpecifier' ? nameOf(one.imported) : '*'));
      const onlyTypes = node.specifiers.length > 0 && node.specifiers.every(isTypeSpecifier);
      add(node.source.value, names, node.importKind === 'type' || onlyTypes);
    },
    ExportNamedDeclaration(node) {
      if (node.source === null) return;
      const onlyTypes = node.specifiers.length > 0 && node.specifiers.every((one) => one.exportKind === 'type');
      add(
        node.source.value,
        node.specifiers.map((one) => nameOf(one.local)),
        node.exportKind === 'type' || onlyTypes,
      );
    },
    ExportAllDeclaration(node) {
      add(node.source.value, ['*'], node.exportKind === 'type');
    },
    ImportExpression(node) {
      // A computed specifier cannot be judged; it is reported as one that nothing allows.
      const { source } = node;
      add(source.type === 'Literal' && typeof source.value === 'string' ? source.value : '(computed)', ['*'], false);
    },
    TSImportType(node) {
      add(node.source.value, ['*'], true);
    },
  }).visit(program);
  return imports;
}

function findEffects(program: ESTree.Program): string[] {
  const effects: string[] = [];
  new Visitor({
    MemberExpression(node) {
      const { object, property } = node;
      if (node.computed || property.type !== 'Identifier') return;
      const member = object.type === 'Identifier' ? `${object.name}.${property.name}` : property.name;
      if (IMPURE_MEMBERS.test(member) || LOCALE_METHODS.test(property.name)) effects.push(member);
      if (object.type !== 'Identifier') return;
      const ofProcess = object.name === 'process' && OF_NODE_PROCESS.test(property.name);
      if (ofProcess || IMPURE_GLOBALS.has(object.name)) effects.push(object.name);
    },
    NewExpression(node) {
      const clock = node.callee.type === 'Identifier' && node.callee.name === 'Date' && node.arguments.length === 0;
      if (clock) effects.push('new Date()');
    },
    CallExpression(node) {
      if (node.callee.type === 'Identifier' && IMPURE_GLOBALS.has(node.callee.name)) effects.push(node.callee.name);
    },
  }).visit(program);
  return effects;
}

function isReExport(statement: ESTree.Program['body'][number]): boolean {
  if (statement.type === 'ExportAllDeclaration') return true;
  if (statement.type !== 'ExportNamedDeclaration') return false;
  return statement.source !== null || (statement.declaration === null && statement.specifiers.length === 0);
}

function isTypeSpecifier(specifier: ESTree.ImportDeclarationSpecifier): boolean {
  return specifier.type === 'ImportSpecifier' && specifier.importKind === 'type';
}

function nameOf(name: ESTree.ModuleExportName): string {
  return name.type === 'Literal' ? String(name.value) : name.name;
}

/** `@sheetwave/geometry/x` → `@sheetwave/geometry`; `makerjs/lib/x` → `makerjs`; undefined for a file or a Node module. */
export function packageOf(specifier: string): string | undefined {
  if (specifier.startsWith('.') || isBuiltin(specifier)) return undefined;
  const parts = specifier.split('/');
  return specifier.startsWith('@') ? parts.slice(0, 2).join('/') : parts[0];
}
