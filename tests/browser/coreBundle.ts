/** The library, or what a page uses of it, as one file for a browser, made by an ordinary bundler in its ordinary settings. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build, defaultClientConditions } from 'vite';

export interface Bundle {
  readonly code: string;
  /** Paths of the modules that went in. */
  readonly modules: readonly string[];
  /** What it would still ask for at run time. */
  readonly imports: readonly string[];
  readonly minified: number;
  readonly gzipped: number;
}

const CONTENTS = join(import.meta.dirname, '../../packages/core/src/index.ts');
/** @param names - what a page uses; left out: all that the library has */
export async function bundleCore(names?: readonly string[]): Promise<Bundle> {
  const entry = names === undefined ? CONTENTS : join(mkdtempSync(join(tmpdir(), 'valvetide-')), 'page.js');
  if (names !== undefined)
    writeFileSync(entry, `export { ${names.join(', ')} } from ${JSON.stringify(CONTENTS)};\n`);
  const result = await build({
    configFile: false,
    logLevel: 'silent',
    // The sources, as the entry is one; the rest is what a browser gets.
    resolve: { conditions: ['@valvetide/source', ...defaultClientConditions] },
    build: {
      write: false,
      minify: true,
      target: 'es2023',
      // As for a page, not for a library of its own, of which a bundler keeps white space and remarks for the next one.
      modulePreload: false,
      rolldownOptions: { input: entry, preserveEntrySignatures: 'strict', output: { format: 'es' } },
    },
  });
  const [output] = Array.isArray(result) ? result : [result];
  if (!('output' in output)) throw new Error('the bundler watches in place of building');
  const chunks = output.output.flatMap((part) => (part.type === 'chunk' ? [part] : []));
  if (chunks.length !== 1) throw new Error(`${chunks.length} files in place of one`);
  const { code, moduleIds, imports, dynamicImports } = chunks[0];
  return {
    code,
    modules: moduleIds,
    imports: [...imports, ...dynamicImports],
    minified: Buffer.byteLength(code),
    gzipped: gzipSync(code, { level: 9 }).length,
  };
}
