import type { KeyPath } from '../path.ts';
import { designJsonSchema, type JsonSchema } from './json-schema.ts';

/** The schema itself and every alternative it offers. */
function alternatives(schema: JsonSchema): readonly JsonSchema[] {
  const inner = [...(schema.anyOf ?? []), ...(schema.oneOf ?? [])];
  return [schema, ...inner.flatMap(alternatives)];
}

function step(schema: JsonSchema, key: string | number): readonly JsonSchema[] {
  return alternatives(schema).flatMap((each) => {
    const next = typeof key === 'number' ? each.items : (each.properties?.[key] ?? each.additionalProperties);
    return typeof next === 'object' ? [next] : [];
  });
}

/** Names of the fields that the table at this path can have, in the order of the schema; none when the path leads nowhere. */
export function knownKeys(path: KeyPath): readonly string[] {
  let schemas: readonly JsonSchema[] = [designJsonSchema()];
  for (const key of path) schemas = schemas.flatMap((schema) => step(schema, key));
  const keys = schemas.flatMap(alternatives).flatMap((schema) => Object.keys(schema.properties ?? {}));
  return [...new Set(keys)];
}
