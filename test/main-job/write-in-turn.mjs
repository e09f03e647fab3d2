// Writes two packs into one folder in turn until it is killed: node write-in-turn.mjs FOLDER PACKS.json
import { readFileSync } from 'node:fs';
import { writePack } from '@sheetwave/pack';

const [folder, packs] = process.argv.slice(2);
const files = JSON.parse(readFileSync(packs, 'utf8')).map((pack) =>
  pack.map((file) => ({ ...file, bytes: Buffer.from(file.base64, 'base64') })),
);
for (let turn = 0; ; turn += 1) {
  const result = await writePack({ folder, files: files[turn % files.length] });
  if (!result.written) throw new Error(`${result.problem.path} ${result.problem.why}`);
  if (turn === 0) process.stdout.write('started\n');
}
