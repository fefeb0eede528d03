/**
 * The command as a few files, with what it uses of the libraries in them: a module is loaded for every file it stands in, and
 * mathjs, yargs, yaml and zod stand in thousands. What draws and what starts threads stays outside, loaded when asked for.
 * Needs a build first.
 */
import { cpSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';

const root = fileURLToPath(new URL('..', import.meta.url));
const cli = join(root, 'packages/cli');
const folder = join(cli, 'bundle');
/** Dependencies that an installation brings, large or loaded by path, and those of whoever wants a queue. */
const { dependencies, peerDependencies } = JSON.parse(readFileSync(join(cli, 'package.json'), 'utf8'));
const outside = Object.keys({ ...dependencies, ...peerDependencies });

/** The package that a bundled file comes from, with the words of its licence. */
function packageOf(file) {
  for (let at = dirname(file); at.startsWith(root) && at.length > root.length; at = dirname(at)) {
    const manifest = join(at, 'package.json');
    if (!existsSync(manifest)) continue;
    const { name, version, license } = JSON.parse(readFileSync(manifest, 'utf8'));
    if (name === undefined || version === undefined) continue;
    const text = ['LICENSE', 'LICENSE.md', 'LICENSE.txt', 'license', 'LICENCE', 'LICENSE-MIT.txt']
      .map((title) => join(at, title))
      .find((path) => existsSync(path));
    return { name, version, license, text: text === undefined ? '' : readFileSync(text, 'utf8').trim() };
  }
  throw new Error(`no package holds ${file}`);
}

/** Licences of everything bundled, as most of them ask to be passed on. */
function licences(modules) {
  const packages = new Map();
  for (const file of modules) {
    const path = file.startsWith('\0') ? file.slice(1) : file;
    if (!path.includes('/node_modules/')) continue;
    const held = packageOf(path.split('?')[0]);
    packages.set(`${held.name} ${held.version}`, held);
  }
  return [...packages]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([title, { license, text }]) => `${title} (${license})\n\n${text}\n`)
    .join(`\n${'-'.repeat(80)}\n\n`);
}

/**
 * The same program in plain signs. One sign beyond Latin makes the engine read a whole file at two bytes a character: it takes longer to
 * scan, and twice the memory.
 */
function inAscii(code) {
  return code.replace(/[\u0080-\uffff]/g, (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

rmSync(folder, { recursive: true, force: true });
const build = await rolldown({
  input: {
    bin: join(cli, 'dist/bin.js'),
    main: join(cli, 'dist/main.js'),
    worker: join(cli, 'dist/workers/worker.js'),
  },
  platform: 'node',
  external: (id) => outside.some((name) => id === name || id.startsWith(`${name}/`)),
  // The class of units alone, not the one file of all of mathjs that Node loads without a bundle.
  resolve: { alias: { '#units': join(root, 'packages/core/dist/base/unitsOfModules.js') } },
});
const { output } = await build.write({
  dir: folder,
  format: 'esm',
  entryFileNames: '[name].js',
  chunkFileNames: '[name]-[hash].js',
  // Functions of modules keep their names, which the traces of a fault are told by.
  minify: { compress: true, mangle: { toplevel: false }, codegen: { removeWhitespace: true } },
});
for (const { fileName, code } of output)
  if (code !== undefined) writeFileSync(join(folder, fileName), inAscii(code));
await build.close();
// The schema that the first line of a new file leads to.
cpSync(join(root, 'packages/core/schema'), join(cli, 'schema'), { recursive: true });
writeFileSync(join(folder, 'LICENCES.txt'), licences(output.flatMap(({ moduleIds = [] }) => moduleIds)));
