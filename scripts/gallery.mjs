// `npm run gallery`               draws the golden drawings anew and makes test/output/gallery.html of old and changed ones
// `npm run gallery -- --accept`   takes the changed drawings, which you have looked at, as the golden ones
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { galleryPage } from './gallery-page.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const golden = join(root, 'test', 'golden');
const output = join(root, 'test', 'output');

/** Names, without the ending, of the drawings of a folder. */
function drawingsIn(folder, ending) {
  if (!existsSync(folder)) return [];
  const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((path) => path.replaceAll('\\', '/'));
  return paths.filter((path) => path.endsWith(ending)).map((path) => path.slice(0, -ending.length));
}

function accept() {
  const names = drawingsIn(output, '.changed.svg').sort();
  for (const name of names) {
    const target = join(golden, `${name}.svg`);
    mkdirSync(dirname(target), { recursive: true });
    renameSync(join(output, `${name}.changed.svg`), target);
    console.log(`accepted ${name}`);
  }
  if (names.length === 0) console.log('nothing has changed; run npm run gallery first to draw anew');
}

/** Runs a tool of the project; what it prints is shown only when it fails for another reason than changed drawings. */
function draw() {
  const build = spawnSync(process.execPath, [join(root, 'scripts', 'build.mjs')], { cwd: root, encoding: 'utf8' });
  if (build.status !== 0) {
    console.error(build.stdout + build.stderr);
    process.exit(1);
  }
  const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
  const args = [vitest, 'run', '--project', 'source', 'test/golden/drawings.test.ts'];
  const run = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
  return { failed: run.status !== 0, report: run.stdout + run.stderr };
}

function show() {
  const { failed, report } = draw();
  const changed = new Set(drawingsIn(output, '.changed.svg'));
  if (failed && changed.size === 0) console.log(report);
  const names = [...new Set([...changed, ...drawingsIn(golden, '.svg')])].sort();
  const pictures = names.map((name) => ({
    name,
    old: existsSync(join(golden, `${name}.svg`)) ? `../golden/${name}.svg` : undefined,
    changed: changed.has(name) ? `${name}.changed.svg` : undefined,
  }));
  pictures.sort((a, b) => Number(b.changed !== undefined) - Number(a.changed !== undefined));
  mkdirSync(output, { recursive: true });
  const page = join(output, 'gallery.html');
  writeFileSync(page, galleryPage(pictures));
  console.log(`${pictures.length} drawings, ${changed.size} changed. Open ${pathToFileURL(page)}`);
}

if (process.argv.includes('--accept')) accept();
else show();
