/** Makes the sheets of dyno and sensors among the examples anew, after a change of the model or of their engine. Tests hold the committed ones to it. */
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createServer } from 'vite';

const root = fileURLToPath(new URL('..', import.meta.url));
const source = { conditions: ['@valvetide/source'] };
const server = await createServer({
  root,
  configFile: false,
  appType: 'custom',
  logLevel: 'error',
  server: { middlewareMode: true, ws: false, watch: null },
  resolve: source,
  ssr: { resolve: source },
});
const { pullSheets } = await server.ssrLoadModule(`${root}tests/examples/pullSheets.ts`);
const { pressureSheets } = await server.ssrLoadModule(`${root}tests/examples/pressureSheets.ts`);
const pulls = Object.entries(pullSheets()).map(([file, lines]) => [file, `${lines.join('\n')}\n`]);
for (const [file, text] of [...pulls, ...Object.entries(pressureSheets())]) {
  writeFileSync(`${root}${file}`, text);
  process.stdout.write(`${file}\n`);
}
await server.close();
