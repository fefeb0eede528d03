/** A JSON Schema made from a form, with the words people need: what each field means, the range it may lie in, an example. */
import type { FieldWords } from '../words/fieldWords.ts';

/** A part of a JSON Schema. */
interface Node {
  description?: unknown;
  examples?: unknown;
  range?: unknown;
  readonly type?: unknown;
  readonly enum?: readonly unknown[];
  readonly properties?: Readonly<Record<string, Node>>;
  readonly additionalProperties?: boolean | Node;
  readonly items?: Node;
  readonly anyOf?: readonly Node[];
}

/** Writes the words into `schema`; `words` may leave a field to what its form says of itself. */
export function withWords(
  schema: Record<string, unknown>,
  words: Readonly<Record<string, FieldWords>> = {},
): Record<string, unknown> {
  fill(schema, '', null, words);
  return schema;
}

function fill(
  node: Node,
  path: string,
  own: FieldWords | null,
  words: Readonly<Record<string, FieldWords>>,
): void {
  const { range } = node;
  delete node.range;
  const [ownMeans, ...given] = own ?? [];
  const means = ownMeans ?? (typeof node.description === 'string' ? node.description : null);
  if (means !== null) node.description = typeof range === 'string' ? `${means} (${range})` : means;
  else if (typeof range === 'string') node.description = range;
  const examples = own === null ? undefined : given.length > 0 ? given : usualExamples(node);
  if (examples !== undefined) node.examples = examples;
  for (const [name, inner] of Object.entries(node.properties ?? {})) {
    const here = path === '' ? name : `${path}.${name}`;
    fill(inner, here, words[here] ?? null, words);
  }
  const unnamed = [node.items, node.additionalProperties, ...(node.anyOf ?? [])];
  for (const inner of unnamed) if (typeof inner === 'object') fill(inner, path, null, words);
}

function usualExamples({ type, enum: among }: Node): readonly unknown[] | undefined {
  if (among !== undefined) return [among[0]];
  return type === 'boolean' ? [true, false] : undefined;
}
