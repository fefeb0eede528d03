/** Packs both packages and checks the tarballs as a consumer's tools will see them. Needs a build first. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'valvetide-pack-'));
let failed = 0;

function run(command, args, capture = false) {
  const stdio = ['ignore', capture ? 'pipe' : 'inherit', 'inherit'];
  const result = spawnSync(command, args, { cwd: root, encoding: 'utf8', stdio });
  if (result.error) throw result.error;
  if (result.status !== 0) failed += 1;
  return result.stdout;
}

/** What has no business in a published package. */
const strays = /(^|\/)(test|etc|node_modules)\/|\.tsbuildinfo$|\.test\./;

try {
  for (const name of ['core', 'cli']) {
    const packed = run(
      'npm',
      ['pack', '--json', '--pack-destination', folder, '-w', `packages/${name}`],
      true,
    );
    const [{ filename, files }] = JSON.parse(packed);
    const tarball = join(folder, filename);
    console.log(`\n${filename}: ${files.length} files`);
    for (const { path } of files)
      if (strays.test(path)) {
        console.error(`${filename} holds ${path}`);
        failed += 1;
      }
    run('npx', ['--no-install', 'publint', tarball, '--strict']);
    run('npx', ['--no-install', 'attw', tarball, '--profile', 'esm-only', '--no-emoji', '--no-color']);
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
process.exitCode = failed > 0 ? 1 : 0;
