/** Every field of the published schema of combination files, by the section it stands in. */
import { readFileSync } from 'node:fs';

export interface Schema {
  readonly type?: string;
  readonly description?: string;
  readonly enum?: readonly string[];
  readonly const?: string;
  readonly pattern?: string;
  readonly required?: readonly string[];
  readonly anyOf?: readonly Schema[];
  readonly items?: Schema;
  readonly properties?: Readonly<Record<string, Schema>>;
}

export interface Field {
  readonly name: string;
  readonly schema: Schema;
  /** Asked for where its section stands in a file. */
  readonly needed: boolean;
}

/** `[]` stands behind the name of a list of sections. */
export function fieldsBySection(): ReadonlyMap<string, readonly Field[]> {
  const sections = new Map<string, readonly Field[]>();
  const collect = (schema: Schema, section: string): void => {
    for (const branch of schema.anyOf ?? []) collect(branch, section);
    if (schema.items !== undefined) collect(schema.items, `${section}[]`);
    for (const [name, field] of Object.entries(schema.properties ?? {})) {
      const fields = sections.get(section) ?? [];
      const needed = schema.required?.includes(name) ?? false;
      if (!fields.some((known) => known.name === name))
        sections.set(section, [...fields, { name, schema: field, needed }]);
      collect(field, section === '' ? name : `${section}.${name}`);
    }
  };
  const file = new URL('../../schema/combination.schema.json', import.meta.url);
  collect(JSON.parse(readFileSync(file, 'utf8')), '');
  return sections;
}

/** The schema and all that it allows in its place. */
export const branches = (schema: Schema): readonly Schema[] => [
  schema,
  ...(schema.anyOf ?? []).flatMap(branches),
];

/** Written with its unit, and in no other way. */
export const isQuantity = ({ schema }: Field): boolean =>
  branches(schema).some(({ pattern }) => pattern !== undefined) &&
  !branches(schema).some(({ items, type }) => items !== undefined || type === 'number');
