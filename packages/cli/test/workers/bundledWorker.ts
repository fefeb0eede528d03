/** The worker's module made of the sources, for threads of the pool: Node 20 can't load TypeScript by itself. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';

export interface BundledWorker {
  readonly url: URL;
  remove(): void;
}

export async function bundledWorker(): Promise<BundledWorker> {
  const folder = mkdtempSync(join(tmpdir(), 'valvetide-worker-'));
  const conditions = ['@valvetide/source', 'node', 'import', 'module', 'default'];
  await build({
    configFile: false,
    logLevel: 'error',
    resolve: { conditions },
    ssr: { noExternal: true, resolve: { conditions } },
    build: {
      ssr: fileURLToPath(new URL('../../src/workers/worker.ts', import.meta.url)),
      outDir: folder,
      emptyOutDir: true,
      minify: false,
      rollupOptions: { output: { entryFileNames: 'worker.mjs' } },
    },
  });
  return {
    url: pathToFileURL(join(folder, 'worker.mjs')),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
