/** What one source file imports, exports and reaches for, read from its syntax tree. */
import { parseSync, Visitor } from 'vite';

export interface ModuleFacts {
  /** Specifiers of every import, re-export, dynamic import and `import('…')` type, in order of appearance. */
  readonly imports: readonly string[];
  readonly hasDefaultExport: boolean;
  /** Nothing in it but re-exports. */
  readonly isBarrel: boolean;
  /** Names used that the file doesn't declare, with `Math.random` and the like joined by a dot. */
  readonly globals: ReadonlySet<string>;
}

/** Reads a TypeScript source. Throws on a syntax error, since nothing can be said of such a file. */
export function readModule(path: string, text: string): ModuleFacts {
  const { program, module, errors } = parseSync(path, text);
  if (errors.length > 0) throw new Error(`${path}: ${errors[0].message}`);

  const imports: string[] = [];
  for (const entry of module.staticImports) imports.push(entry.moduleRequest.value);
  for (const statement of module.staticExports)
    for (const entry of statement.entries) if (entry.moduleRequest) imports.push(entry.moduleRequest.value);

  const used = new Set<string>();
  const declared = new Set<string>();
  const notReferences = new Set<object>();
  const declare = (node: ({ type: string } & Partial<{ name: string }>) | null): void => {
    if (node?.type === 'Identifier' && node.name !== undefined) declared.add(node.name);
  };
  new Visitor({
    ImportExpression(node) {
      if (node.source.type === 'Literal') imports.push(String(node.source.value));
    },
    TSImportType(node) {
      imports.push(String(node.source.value));
    },
    ImportSpecifier: (node) => declare(node.local),
    ImportDefaultSpecifier: (node) => declare(node.local),
    ImportNamespaceSpecifier: (node) => declare(node.local),
    VariableDeclarator: (node) => declare(node.id),
    FunctionDeclaration(node) {
      declare(node.id);
      for (const parameter of node.params) if (parameter.type === 'Identifier') declare(parameter);
    },
    FunctionExpression(node) {
      for (const parameter of node.params) if (parameter.type === 'Identifier') declare(parameter);
    },
    ArrowFunctionExpression(node) {
      for (const parameter of node.params) if (parameter.type === 'Identifier') declare(parameter);
    },
    MemberExpression(node) {
      if (node.computed || node.property.type !== 'Identifier') return;
      notReferences.add(node.property);
      if (node.object.type === 'Identifier') used.add(`${node.object.name}.${node.property.name}`);
    },
    Property(node) {
      if (node.computed) return;
      notReferences.add(node.key);
      if (node.shorthand && node.value.type === 'Identifier') used.add(node.value.name);
    },
    TSPropertySignature: (node) => void notReferences.add(node.key),
    PropertyDefinition: (node) => void notReferences.add(node.key),
    MethodDefinition: (node) => void notReferences.add(node.key),
    Identifier(node) {
      if (!notReferences.has(node)) used.add(node.name);
    },
  }).visit(program);

  return {
    imports: [...new Set(imports)],
    hasDefaultExport: module.staticExports.some((s) =>
      s.entries.some((e) => e.exportName.kind === 'Default' || e.exportName.name === 'default'),
    ),
    isBarrel:
      program.body.length > 0 &&
      program.body.every(
        (s) =>
          s.type === 'ExportAllDeclaration' || (s.type === 'ExportNamedDeclaration' && s.source !== null),
      ),
    globals: new Set([...used].filter((name) => !declared.has(name.split('.')[0]))),
  };
}
