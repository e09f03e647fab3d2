/**
 * Which package may import which, lowest first. A package may name only what stands above its own line, so there is
 * no way round in a circle. Whoever adds a package adds its line here.
 */
export const LAYERS: readonly (readonly [name: string, mayImport: readonly string[]])[] = [
  ['rf', []],
  ['field', []],
  ['design', []],
  ['geometry', ['design', 'rf']],
  ['predict', ['design', 'geometry', 'rf', 'field']],
  ['bench', ['design', 'rf']],
  ['emit-dxf', ['design', 'geometry']],
  ['emit-gerber', ['design', 'geometry']],
  ['drawings', ['design', 'geometry']],
  ['pictures', ['design', 'drawings', 'geometry']],
  ['plots', ['drawings', 'geometry', 'predict', 'rf']],
  ['plan', ['design', 'drawings', 'geometry', 'pictures', 'plots', 'predict']],
  ['emit-svg', ['design', 'drawings', 'geometry', 'pictures']],
  ['emit-pdf', ['design', 'drawings', 'geometry', 'plan']],
  ['emit-html', ['emit-svg', 'plan']],
  ['emit-stl', ['design', 'geometry']],
  ['link', ['design', 'geometry', 'rf', 'predict', 'plots', 'emit-svg']],
  [
    'pack',
    [
      'design',
      'geometry',
      'rf',
      'predict',
      'bench',
      'drawings',
      'plots',
      'plan',
      'emit-dxf',
      'emit-gerber',
      'emit-svg',
      'emit-html',
      'emit-pdf',
      'emit-stl',
    ],
  ],
  ['cli', ['design', 'field', 'geometry', 'rf', 'link', 'predict', 'bench', 'drawings', 'plots', 'emit-svg', 'pack']],
];

/** Libraries that each stand behind the one file named here, because what they give back has to be checked. */
export const WRAPPED: Readonly<Record<string, string>> = {
  makerjs: 'packages/geometry/src/makerjs.ts',
  pdfkit: 'packages/emit-pdf/src/pdf-file.ts',
  'maxrects-packer': 'packages/geometry/src/nest/pack-rectangles.ts',
  'd3-array': 'packages/plots/src/ticks.ts',
};

/** Packages of which only files are read, and who reads them: no import shows that they are needed. */
export const READ_AS_FILES: Readonly<Record<string, string>> = { 'dejavu-fonts-ttf': 'emit-pdf' };

/** Libraries that more than one file may import, and those files: one shapes its package, one both reads and writes. */
export const IN_MORE_FILES: Readonly<Record<string, RegExp>> = {
  zod: /^packages\/design\/src\//,
  'smol-toml': /^packages\/design\/src\/(?:toml|write-design)\.ts$/,
};

/** Node's own modules, and who may import them. Everything else is pure: plain data in, plain data out. */
export const NODE_MODULES: readonly (readonly [file: RegExp, modules: readonly RegExp[]])[] = [
  [/^packages\/cli\/src\//, [/^node:/]],
  [/^packages\/pack\/src\/swap\/folder-io\.ts$/, [/^node:fs\/promises$/]],
  [/^packages\/pack\/src\/swap\//, [/^node:path$/]],
  // The faces that pages are written in are files of a font package.
  [/^packages\/emit-pdf\/src\/font-files\.ts$/, [/^node:(?:fs|module)$/]],
  // Types only: the process is asked for the modules while it runs.
  [/^packages\/field\/src\/node\.ts$/, [/^node:worker_threads$/]],
  // A digest of bytes is a pure function; only `createHash` may be taken from there.
  [/^packages\/(pack|emit-[a-z]+)\/src\//, [/^node:crypto$/]],
];

/** Files that may ask for the time, the process or the terminal. */
export const MAY_HAVE_EFFECTS =
  /^packages\/cli\/src\/|^packages\/pack\/src\/swap\/|^packages\/field\/src\/(node|browser)\.ts$/;
