import type { KeyPath } from '../path.ts';
import type { JsonSchema } from './json-schema.ts';

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

/** True unless a fixed word of the alternative, such as `kind`, differs from the table's. */
function suits(schema: JsonSchema, table: Readonly<Record<string, unknown>>): boolean {
  return Object.entries(schema.properties ?? {}).every(([key, property]) => {
    if (property.const === undefined || property.const === table[key]) return true;
    return table[key] === undefined && !schema.required?.includes(key);
  });
}

/** Names of the fields a table at this path of a file can have: those of its own kind, and those of any kind. In the order of the schema. */
export function knownKeys(
  path: KeyPath,
  table: unknown,
  file: JsonSchema,
): { readonly own: readonly string[]; readonly any: readonly string[] } {
  let schemas: readonly JsonSchema[] = [file];
  for (const key of path) schemas = schemas.flatMap((schema) => step(schema, key));
  const all = schemas.flatMap(alternatives);
  const fields = typeof table === 'object' && table !== null ? (table as Readonly<Record<string, unknown>>) : {};
  const keysOf = (some: readonly JsonSchema[]) => [
    ...new Set(some.flatMap((schema) => Object.keys(schema.properties ?? {}))),
  ];
  return { own: keysOf(all.filter((schema) => suits(schema, fields))), any: keysOf(all) };
}
