/** Reports as a user makes them: example files, the command line, the real library. */
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { main } from '../../packages/cli/src/main.ts';
import { world } from '../../packages/cli/test/fakeIo.ts';

const root = join(import.meta.dirname, '../..');

/** Everything under `examples/`, by the path it is called by. */
function exampleFiles(): Record<string, string> {
  const names = readdirSync(join(root, 'examples'), { recursive: true, encoding: 'utf8' });
  return Object.fromEntries(
    names
      .filter((name) => /\.(yaml|csv)$/.test(name))
      .map((name) => [`examples/${name}`, readFileSync(join(root, 'examples', name), 'utf8')]),
  );
}

/** Runs a command line that writes `out.html`, and gives the path of the page on disk. */
export async function makeReport(
  words: readonly string[],
  more: Readonly<Record<string, string>> = {},
): Promise<string> {
  const w = world({ files: { ...exampleFiles(), ...more } });
  const code = await main([...words, '--report', 'out.html', '--quiet'], w.io);
  const page = w.files.get('out.html');
  if (code !== 0 || page === undefined) throw new Error(`exit code ${code}\n${w.err()}`);
  const path = join(mkdtempSync(join(tmpdir(), 'valvetide-')), 'report.html');
  writeFileSync(path, page);
  return path;
}
