/** The guide's page of fields, made from the schema of the combination file. */

interface Node {
  readonly description?: string;
  readonly examples?: readonly unknown[];
  readonly enum?: readonly string[];
  readonly const?: unknown;
  readonly type?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly properties?: Readonly<Record<string, Node>>;
  readonly required?: readonly string[];
  readonly items?: Node;
  readonly anyOf?: readonly Node[];
}

interface Row {
  readonly path: string;
  readonly node: Node;
  readonly needed: boolean;
}

/** One line a field, fields of its own after it; `[]` marks what repeats. */
function rowsOf(node: Node, path: string, needed: boolean): readonly Row[] {
  const row = { path, node, needed };
  const inner = [node, ...(node.anyOf ?? [])].flatMap((choice) => [
    ...fieldsOf(choice, path),
    ...(choice.items === undefined ? [] : fieldsOf(choice.items, `${path}[]`)),
  ]);
  return [row, ...inner];
}

function fieldsOf(node: Node, path: string): readonly Row[] {
  return Object.entries(node.properties ?? {}).flatMap(([name, inner]) =>
    rowsOf(inner, path === '' ? name : `${path}.${name}`, node.required?.includes(name) ?? false),
  );
}

function words(node: Node): readonly string[] {
  const own = node.enum ?? (typeof node.const === 'string' ? [node.const] : []);
  return [...own, ...(node.anyOf ?? []).flatMap(words)];
}

/** As it is written in YAML on one line. */
function written(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(written).join(', ')}]`;
  if (value === null || typeof value !== 'object') return String(value);
  const fields = Object.entries(value).map(([name, inner]) => `${name}: ${written(inner)}`);
  return `{ ${fields.join(', ')} }`;
}

function code(text: string): string {
  return `\`${text.replaceAll('|', '\\|')}\``;
}

function range({ minimum, maximum, anyOf }: Node): string {
  if (anyOf !== undefined || minimum === undefined || maximum === undefined) return '';
  return Number.isSafeInteger(maximum) && maximum > 1e12 ? '' : ` (${minimum} to ${maximum})`;
}

function line({ path, node, needed }: Row): string {
  const choices = words(node);
  const shown = (node.examples ?? []).map(written);
  // Beside words, what else may be written in their place.
  const others = (node.examples ?? []).filter((example) => typeof example === 'object').map(written);
  const examples = choices.length > 0 ? [...choices, ...others] : shown;
  const what = `${node.description ?? ''}${range(node)}`.replaceAll('|', '\\|');
  return `| ${code(path)} | ${needed ? '**Needed.** ' : ''}${what} | ${examples.map(code).join(', ')} |`;
}

function section(name: string, node: Node, needed: boolean): string {
  const rows = rowsOf(node, name, needed).slice(node.properties === undefined ? 0 : 1);
  const say = node.properties === undefined ? '' : `${node.description ?? ''}\n\n`;
  return [
    `## ${name}`,
    '',
    `${say}| field | what it says | write |`,
    '| ----- | ------------ | ----- |',
    ...rows.map(line),
    '',
  ].join('\n');
}

/** The page; `introduction` stands above the sections. */
export function fieldReference(schema: unknown, introduction: string): string {
  const { properties = {}, required = [] } = schema as Node;
  const sections = Object.entries(properties).map(([name, node]) =>
    section(name, node, required.includes(name)),
  );
  return `${introduction}\n${sections.join('\n')}`.trimEnd().concat('\n');
}

/** Paths of every field of the schema, as the page writes them. */
export function fieldPaths(schema: unknown): readonly string[] {
  return fieldsOf(schema as Node, '').map(({ path }) => path);
}
