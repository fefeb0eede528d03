/** Which fields a schema knows, read off the schema itself: its JSON Schema is for editors, and takes code that reading has no use for. */
import type * as z from 'zod/mini';
import { SECTIONS } from './combinationFile.ts';

/** Fields within a value. */
export interface FieldShape {
  readonly properties?: Readonly<Record<string, FieldShape>>;
  readonly items?: FieldShape;
  readonly anyOf?: readonly FieldShape[];
  /** What reads a value that is none of these. */
  readonly schema?: z.core.$ZodType;
}

let shapeOfFiles: FieldShape | undefined;

/** Of the combination file. Made once: a file full of slips asks for it at every one of them. */
export function fileShape(): FieldShape {
  shapeOfFiles ??= { properties: shapes(SECTIONS) };
  return shapeOfFiles;
}

export function fieldShape(schema: z.core.$ZodType): FieldShape {
  const { def } = (schema as z.core.$ZodTypes)._zod;
  switch (def.type) {
    case 'object':
      return { properties: shapes(def.shape) };
    case 'array':
      return { items: fieldShape(def.element) };
    case 'union':
      return { anyOf: def.options.map(fieldShape) };
    case 'optional':
      return fieldShape(def.innerType);
    case 'pipe': {
      const within = fieldShape(def.in);
      return within.schema === undefined ? within : { schema };
    }
    default:
      return { schema };
  }
}

function shapes(fields: Readonly<Record<string, z.core.$ZodType>>): Readonly<Record<string, FieldShape>> {
  return Object.fromEntries(Object.entries(fields).map(([name, field]) => [name, fieldShape(field)]));
}
