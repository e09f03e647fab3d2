// `npm run gallery`               draws the golden drawings anew and makes test/output/gallery.html of old and changed ones
// `npm run gallery -- --accept`   takes the changed drawings, which you have looked at, as the golden ones
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { galleryPage } from './gallery-page.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const kept = ['test/golden', 'examples'];
const output = join(root, 'test', 'output');

/** Paths from a folder, without the ending, of the files there that have this ending. */
function filesIn(folder, ending) {
  if (!existsSync(folder)) return [];
  const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((path) => path.replaceAll('\\', '/'));
  return paths.filter((path) => path.endsWith(ending)).map((path) => path.slice(0, -ending.length));
}

const changedDrawings = () => filesIn(output, '.changed.svg').sort();
const goldenDrawings = () =>
  kept.flatMap((folder) => filesIn(join(root, folder), '.svg').map((name) => `${folder}/${name}`));

function accept() {
  const names = changedDrawings();
  for (const name of names) {
    const target = join(root, `${name}.svg`);
    mkdirSync(dirname(target), { recursive: true });
    renameSync(join(output, `${name}.changed.svg`), target);
    console.log(`accepted ${name}.svg`);
  }
  if (names.length === 0) console.log('nothing has changed; run npm run gallery first to draw anew');
}

/** Draws anew by running the test, which writes the changed drawings. */
function draw() {
  const vitest = join(root, 'node_modules', 'vitest', 'vitest.mjs');
  const args = [vitest, 'run', '--project', 'source', 'test/golden/drawings.test.ts'];
  const run = spawnSync(process.execPath, args, { cwd: root, encoding: 'utf8' });
  return { failed: run.status !== 0, report: run.stdout + run.stderr };
}

function show() {
  const { failed, report } = draw();
  const changed = new Set(changedDrawings());
  if (failed && changed.size === 0) console.log(report);
  const names = [...new Set([...changed, ...goldenDrawings()])].sort();
  const pictures = names.map((name) => ({
    name,
    old: existsSync(join(root, `${name}.svg`)) ? `../../${name}.svg` : undefined,
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
