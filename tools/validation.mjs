/**
 * Runs the published checks and writes docs/validation.md with its plots. With --check: writes nothing and fails where the
 * committed page is stale or a figure doesn't hold. Takes minutes.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createServer } from 'vite';

const root = fileURLToPath(new URL('..', import.meta.url));
const page = `${root}docs/validation.md`;

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
const { validationReport } = await server.ssrLoadModule(`${root}tests/validation/validationReport.ts`);
const report = await validationReport((title) => process.stderr.write(`${title}\n`));
if (process.argv.includes('--check')) {
  for (const line of report.staleIn(readFileSync(page, 'utf8'))) {
    process.stdout.write(`stale: ${line}\n`);
    process.exitCode = 1;
  }
} else {
  writeFileSync(page, report.document);
  for (const plot of report.plots) writeFileSync(`${root}docs/${plot.file}`, plot.svg);
}
for (const line of report.failures) {
  process.stdout.write(`does not hold: ${line}\n`);
  process.exitCode = 1;
}
await server.close();
