/** Makes the live page one HTML file: the library in a worker, its code written into the page. `npm run example:page [FILE]`. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildForPage } from './pageBuild.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const folder = join(root, 'examples/live-page');
const target = process.argv[2] ?? join(folder, 'dist/live-page.html');

const { code } = await buildForPage({
  lib: { entry: join(folder, 'worker.js'), formats: ['iife'], name: 'live' },
  rolldownOptions: { output: { minify: true } },
});

/** Nothing in a text may end the script that it stands in. */
const written = (value) => JSON.stringify(value).replaceAll('<', '\\u003c');
const engine = { text: readFileSync(join(folder, 'engine.yaml'), 'utf8'), workerCode: code };
const script = `window.liveEngine = ${written(engine)};\n${readFileSync(join(folder, 'page.js'), 'utf8')}`;
const page = readFileSync(join(folder, 'page.html'), 'utf8');
mkdirSync(dirname(target), { recursive: true });
writeFileSync(
  target,
  page.replace('/*PAGE*/', () => script),
);
console.log(target);
