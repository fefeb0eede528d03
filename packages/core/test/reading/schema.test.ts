import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { readCombination } from '../../src/reading/readCombination.ts';
import { combinationSchema } from '../../src/reading/schema/combinationSchema.ts';
import { EXAMPLES, exampleText, fileWith } from './files.ts';

interface Node {
  readonly type?: string;
  readonly description?: string;
  readonly examples?: readonly unknown[];
  readonly enum?: readonly string[];
  readonly properties?: Readonly<Record<string, Node>>;
  readonly additionalProperties?: boolean | Node;
  readonly propertyNames?: { readonly pattern?: string };
  readonly items?: Node;
  readonly anyOf?: readonly Node[];
}

/** Every field of the schema with its path; choices are walked through. */
function fieldsOf(node: Node, path: string): readonly (readonly [string, Node])[] {
  const own = Object.entries(node.properties ?? {}).flatMap(([name, inner]) => {
    const here = path === '' ? name : `${path}.${name}`;
    return [[here, inner] as const, ...fieldsOf(inner, here)];
  });
  const inner = [...(node.items === undefined ? [] : [node.items]), ...(node.anyOf ?? [])];
  return [...own, ...inner.flatMap((choice) => fieldsOf(choice, path))];
}

function objectsOf(node: Node): readonly Node[] {
  const inner = [
    ...Object.values(node.properties ?? {}),
    ...(node.items === undefined ? [] : [node.items]),
    ...(node.anyOf ?? []),
  ];
  return [...(node.type === 'object' ? [node] : []), ...inner.flatMap(objectsOf)];
}

const NO_EXAMPLE = ['$schema', 'notes'];

describe('combinationSchema', () => {
  it('describes every field, with an example for each value', () => {
    const fields = fieldsOf(combinationSchema() as Node, '');
    expect(fields.length).toBeGreaterThan(120);
    expect(fields.filter(([, field]) => (field.description ?? '').length < 5).map(([path]) => path)).toEqual(
      [],
    );
    const bare = fields.filter(
      ([path, field]) =>
        field.properties === undefined && !NO_EXAMPLE.includes(path) && (field.examples ?? []).length === 0,
    );
    expect(bare.map(([path]) => path)).toEqual([]);
  });

  it('lets no unknown field through anywhere', () => {
    // A table by speed has a speed for a name, and says what that looks like.
    const open = objectsOf(combinationSchema() as Node).filter(
      ({ additionalProperties, propertyNames }) =>
        additionalProperties !== false && propertyNames?.pattern === undefined,
    );
    expect(open).toEqual([]);
  });

  it('is draft-07 and accepts every example file', () => {
    const validate = new Ajv({ strict: false }).compile(combinationSchema());
    expect(combinationSchema()['$schema']).toBe('http://json-schema.org/draft-07/schema#');
    for (const name of EXAMPLES) {
      expect(validate(parse(exampleText(name))), `${name}: ${JSON.stringify(validate.errors)}`).toBe(true);
    }
    expect(validate({ engine: { bore: 4 } })).toBe(false);
  });

  it('offers only examples that can be read', () => {
    const fields = fieldsOf(combinationSchema() as Node, '').filter(([path]) =>
      /^(engine|chamber|friction|heat|weather)\.[a-zA-Z]+$/u.test(path),
    );
    for (const [path, field] of fields) {
      const [section, name] = path.split('.');
      for (const example of field.examples ?? []) {
        const engine = { bore: '4 in', stroke: '3.48 in', cylinders: 8 };
        const file = { engine, chamber: { compression: 9 }, heads: { valvesPerCylinder: 2 } };
        const filled = {
          ...file,
          [section]: { ...(file as Record<string, object>)[section], [name]: example },
        };
        const result = readCombination(JSON.stringify(filled));
        // A lone example may not fit the engine around it, but it must be of the right kind.
        const kinds = result.ok ? [] : result.problems.map((problem) => problem.code);
        expect(
          kinds.filter((code) => /unit|kind|range|word|quantity|field/u.test(code)),
          path,
        ).toEqual([]);
      }
    }
    expect(fields.length).toBeGreaterThan(30);
  });

  it('is published in the package as it stands in the code', async () => {
    // Editors read the file; `vitest -u` writes it anew after a change of the schema.
    const file = new URL('../../schema/combination.schema.json', import.meta.url).pathname;
    await expect(`${JSON.stringify(combinationSchema(), null, 2)}\n`).toMatchFileSnapshot(file);
  });

  it('can be written as JSON', () => {
    expect(JSON.parse(JSON.stringify(combinationSchema()))).toEqual(combinationSchema());
    expect(fileWith({})).toContain('engine');
  });
});
