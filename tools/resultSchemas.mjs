/**
 * Writes the JSON Schema of what each command gives with --json, from the types of `packages/cli/src/results.ts` and their comments;
 * `--check` only compares. Takes TypeScript 6 from tools/docs, since the compiler itself has no programming interface.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const ts = createRequire(join(root, 'tools/docs/package.json'))('typescript');
const folder = join(root, 'packages/core/schema');
const entry = join(root, 'packages/cli/src/results.ts');

const program = ts.createProgram([entry], {
  target: ts.ScriptTarget.ES2023,
  module: ts.ModuleKind.NodeNext,
  moduleResolution: ts.ModuleResolutionKind.NodeNext,
  customConditions: ['@valvetide/source'],
  allowImportingTsExtensions: true,
  noEmit: true,
  strict: true,
  types: [],
  skipLibCheck: true,
});
const checker = program.getTypeChecker();
const source = program.getSourceFile(entry);
const results = checker
  .getExportsOfModule(checker.getSymbolAtLocation(source))
  .find(({ name }) => name === 'Results');

/** Schema of a type; named types go among `defs` and are pointed at. */
function schemaOf(type, defs) {
  const { flags } = type;
  if (flags & ts.TypeFlags.StringLiteral || flags & ts.TypeFlags.NumberLiteral) return { const: type.value };
  if (flags & ts.TypeFlags.BooleanLiteral) return { const: checker.typeToString(type) === 'true' };
  if (flags & ts.TypeFlags.String) return { type: 'string' };
  if (flags & ts.TypeFlags.Number) return { type: 'number' };
  if (flags & ts.TypeFlags.Boolean) return { type: 'boolean' };
  if (flags & ts.TypeFlags.Null) return { type: 'null' };
  if (type.isUnion()) return unionOf(type.types, defs);
  if (checker.isTupleType(type) || checker.isArrayType(type)) {
    const [item, ...others] = checker.getTypeArguments(type);
    const kinds = [item, ...others].filter((one) => one !== undefined);
    return { type: 'array', items: kinds.length === 1 ? schemaOf(item, defs) : unionOf(kinds, defs) };
  }
  const name = nameOf(type);
  if (name === null) return objectOf(type, defs);
  if (!Object.hasOwn(defs, name)) {
    defs[name] = {};
    defs[name] = { ...commentOf(type.symbol), ...objectOf(type, defs) };
  }
  return { $ref: `#/$defs/${name}` };
}

/** An interface of its own has a name that a reader knows it by. */
function nameOf({ symbol, aliasSymbol, objectFlags }) {
  if (aliasSymbol !== undefined) return null;
  return objectFlags & ts.ObjectFlags.Interface ? symbol.name : null;
}

function unionOf(types, defs) {
  const kept = types.filter(({ flags }) => !(flags & ts.TypeFlags.Undefined));
  const literals = kept.filter(
    ({ flags }) => flags & (ts.TypeFlags.StringLiteral | ts.TypeFlags.NumberLiteral),
  );
  const booleans = kept.filter(({ flags }) => flags & ts.TypeFlags.BooleanLiteral);
  const others = kept.filter((type) => !literals.includes(type) && !booleans.includes(type));
  const choices = [
    ...(literals.length === 0 ? [] : [{ enum: literals.map(({ value }) => value) }]),
    ...(booleans.length === 2 ? [{ type: 'boolean' }] : booleans.map((type) => schemaOf(type, defs))),
    ...others.map((type) => schemaOf(type, defs)),
  ];
  return choices.length === 1 ? choices[0] : { anyOf: choices };
}

function objectOf(type, defs) {
  const required = [];
  const properties = {};
  for (const symbol of checker.getPropertiesOfType(type)) {
    const own = checker.getTypeOfSymbolAtLocation(symbol, source);
    if (own.getCallSignatures().length > 0)
      throw new Error(`${symbol.name} of ${checker.typeToString(type)} is no value`);
    properties[symbol.name] = { ...schemaOf(own, defs), ...commentOf(symbol) };
    if (!(symbol.flags & ts.SymbolFlags.Optional)) required.push(symbol.name);
  }
  const index = checker.getIndexInfosOfType(type)[0];
  return {
    type: 'object',
    ...(Object.keys(properties).length === 0 ? {} : { properties, required }),
    ...(index === undefined ? {} : { additionalProperties: schemaOf(index.type, defs) }),
  };
}

function commentOf(symbol) {
  const text = ts.displayPartsToString(symbol.getDocumentationComment(checker));
  const description = text
    .replaceAll(/\{@link (\S+?)\}/g, '$1')
    .replaceAll(/\s+/g, ' ')
    .trim();
  return description === '' ? {} : { description };
}

const stale = [];
mkdirSync(folder, { recursive: true });
for (const symbol of checker.getPropertiesOfType(checker.getDeclaredTypeOfSymbol(results))) {
  const defs = {};
  const body = objectOf(checker.getTypeOfSymbolAtLocation(symbol, source), defs);
  const schema = {
    $schema: 'https://json-schema.org/draft/2020-12/schema',
    title: `Result of valvetide ${symbol.name}`,
    description:
      'What the command writes with --json. Within one schemaVersion fields are added and never taken away or given another meaning; a reader passes over fields it does not know.',
    ...body,
    $defs: Object.fromEntries(Object.entries(defs).sort(([a], [b]) => (a < b ? -1 : 1))),
  };
  const path = join(folder, `${symbol.name}-result.schema.json`);
  const text = `${JSON.stringify(schema, null, 2)}\n`;
  if (!process.argv.includes('--check')) writeFileSync(path, text);
  else if (readOr(path) !== text) stale.push(path);
}
if (stale.length > 0) {
  console.error(`not as the types are, run node tools/resultSchemas.mjs:\n${stale.join('\n')}`);
  process.exitCode = 1;
}

function readOr(path) {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return '';
  }
}
