/** Puts licence and list of changes beside the manifest of the package that is being packed; they are kept once, at the top. */
import { copyFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
for (const name of ['LICENSE', 'CHANGELOG.md']) copyFileSync(join(root, name), join(process.cwd(), name));
