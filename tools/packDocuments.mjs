/**
 * Puts licence and list of changes beside the manifest of the package that is being packed, and takes them away again after
 * (`--remove`); they are kept once, at the top.
 */
import { copyFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
for (const name of ['LICENSE', 'CHANGELOG.md']) {
  const copy = join(process.cwd(), name);
  if (process.argv.includes('--remove')) rmSync(copy, { force: true });
  else copyFileSync(join(root, name), copy);
}
