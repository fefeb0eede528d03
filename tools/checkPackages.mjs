/** Packs both packages, checks the tarballs as a consumer's tools will see them, and says how large they are. Needs a build first. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'vite';

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

const kilo = (bytes) => `${(bytes / 1000).toFixed(0)} kB`;

/** The library as a bundler makes one file of it for a browser; the browser's tests hold it to a limit. */
async function bundleSize() {
  const { output } = await build({
    configFile: false,
    logLevel: 'silent',
    build: {
      write: false,
      target: 'es2023',
      lib: { entry: join(root, 'packages/core/dist/index.js'), formats: ['es'] },
      rolldownOptions: { output: { minify: true } },
    },
  }).then((built) => built[0]);
  const code = output.map((part) => part.code ?? '').join('');
  return `${kilo(Buffer.byteLength(code))} minified, ${kilo(gzipSync(code, { level: 9 }).length)} gzipped`;
}

try {
  for (const name of ['core', 'cli']) {
    const packed = run(
      'npm',
      ['pack', '--json', '--pack-destination', folder, '-w', `packages/${name}`],
      true,
    );
    const [{ filename, files, size, unpackedSize }] = JSON.parse(packed);
    const tarball = join(folder, filename);
    console.log(`\n${filename}: ${kilo(size)} packed, ${kilo(unpackedSize)} unpacked, ${files.length} files`);
    for (const { path } of files)
      if (strays.test(path)) {
        console.error(`${filename} holds ${path}`);
        failed += 1;
      }
    run('npx', ['--no-install', 'publint', tarball, '--strict']);
    run('npx', ['--no-install', 'attw', tarball, '--profile', 'esm-only', '--no-emoji', '--no-color']);
  }
  console.log(`\nlibrary bundled for a browser: ${await bundleSize()}`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
process.exitCode = failed > 0 ? 1 : 0;
