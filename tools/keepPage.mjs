/** A page of figures, kept in the documents as the linter wants it. */
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));

/** @param path - from the root of the repository */
export function keepPage(path, text) {
  writeFileSync(`${root}${path}`, text);
  const { status } = spawnSync('npx', ['biome', 'format', '--write', path], { cwd: root });
  if (status !== 0) throw new Error(`${path} can't be formatted`);
  process.stderr.write(`${path} is written\n`);
}
