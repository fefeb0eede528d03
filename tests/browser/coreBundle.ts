/** The library, or what a page uses of it, as one file for a browser, made as the live page is. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { buildForPage } from '../../tools/pageBuild.mjs';

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
  const { code, moduleIds, imports, dynamicImports } = await buildForPage({
    // As for a page, not for a library of its own, of which a bundler keeps white space and remarks for the next one.
    modulePreload: false,
    rolldownOptions: { input: entry, preserveEntrySignatures: 'strict', output: { format: 'es' } },
  });
  return {
    code,
    modules: moduleIds,
    imports: [...imports, ...dynamicImports],
    minified: Buffer.byteLength(code),
    gzipped: gzipSync(code, { level: 9 }).length,
  };
}
