// Writes the JSON Schema of design files beside the built code, for editors that complete and explain TOML.
import { writeFileSync } from 'node:fs';
import { designJsonSchema } from '../dist/index.js';

const target = new URL('../dist/design.schema.json', import.meta.url);
writeFileSync(target, `${JSON.stringify(designJsonSchema(), undefined, 2)}\n`);
