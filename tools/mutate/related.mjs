/** Which test files reach a source file by imports, the nearest first. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';

const CORE = 'packages/core/src';
/** What the library is called by the command line's sources. */
const NAMES = { '@valvetide/core': `${CORE}/index.ts`, '@valvetide/core/job': `${CORE}/job.ts` };

function sourcesOf(root, folder) {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts') && !/(?:^|\/)(?:node_modules|dist|bundle)\//u.test(name))
    .map((name) => join(folder, name));
}

/** Importers of every source file, by path from the root. */
export function importersIn(root) {
  const importers = new Map();
  for (const file of ['packages/core', 'packages/cli', 'tests'].flatMap((folder) =>
    sourcesOf(root, folder),
  )) {
    const text = readFileSync(join(root, file), 'utf8');
    for (const [, , name] of text.matchAll(/(from|import)\s*\(?\s*'([^']+)'/gu)) {
      const target = NAMES[name] ?? (name.startsWith('.') ? normalize(join(dirname(file), name)) : null);
      if (target === null) continue;
      if (!importers.has(target)) importers.set(target, []);
      importers.get(target).push(file);
    }
  }
  return importers;
}

/** Test files of the fast suite that reach `file`, with how many imports lie between, nearest first. */
export function testsReaching(importers, file) {
  const steps = new Map([[file, 0]]);
  const queue = [file];
  while (queue.length > 0) {
    const at = queue.shift();
    for (const by of importers.get(at) ?? [])
      if (!steps.has(by)) {
        steps.set(by, steps.get(at) + 1);
        queue.push(by);
      }
  }
  // The test of a file bears its name; those of its room follow, then by distance.
  const [room, own] = file.split('/').slice(-2);
  const rank = ([name, distance]) =>
    name.endsWith(`/${own.replace('.ts', '.test.ts')}`) ? 0 : distance + (name.includes(`/${room}/`) ? 0 : 2);
  return [...steps]
    .filter(([name]) => name.endsWith('.test.ts') && !/^tests\/(?:slow|package|browser)\//u.test(name))
    .sort((a, b) => rank(a) - rank(b) || (a[0] < b[0] ? -1 : 1));
}
