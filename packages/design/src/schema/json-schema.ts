import { z } from 'zod';
import { designFileSchema } from './design-file.ts';

/** The parts of a JSON Schema (draft 2020-12) that this package reads back. */
export interface JsonSchema {
  readonly $schema?: string;
  readonly title?: string;
  readonly description?: string;
  readonly type?: string;
  readonly const?: unknown;
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly additionalProperties?: boolean | JsonSchema;
  readonly items?: JsonSchema;
  readonly anyOf?: readonly JsonSchema[];
  readonly oneOf?: readonly JsonSchema[];
  readonly required?: readonly string[];
}

/** JSON Schema (draft 2020-12) of a design file as written, for editors: every field with its description. A new object each time. */
export function designJsonSchema(): JsonSchema {
  return z.toJSONSchema(designFileSchema, { io: 'input' }) as JsonSchema;
}
