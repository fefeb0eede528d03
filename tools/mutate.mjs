/**
 * Plants faults in core and looks whether the tests notice: `npm run mutate -- [count] [seed] [room or part of a path] [--near]`.
 *
 * Each fault is one small edit: a sign, a constant by 5 %, a count by one, a guard removed, a comparison swapped. It is planted in a
 * copy of the tree, never in the tree itself. The test files nearest to it run first, then all others of the fast suite that reach it by
 * imports, or with --near not. Faults known to change nothing are listed in mutate/equivalents.json with why. What survives is told by room, with its place; exit code 1.
 */
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { mutantsOf } from './mutate/mutants.mjs';
import { importersIn, testsReaching } from './mutate/related.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const words = process.argv.slice(2);
const near = words.includes('--near');
const [count = '40', seed = '1', only = ''] = words.filter((word) => !word.startsWith('--'));
const CORE = 'packages/core/src';
/** How many test files run at a time, the nearest alone, until one notices; how many count as near; when a run hangs, and is noticed [ms]. */
const AT_ONCE = [1, 3, 8, 16, 1000];
const NEAR = 12;
const PATIENCE = 600_000;
/** A busy machine notices nothing: tests have as long as the whole run. */
const RUN = [
  'vitest',
  'run',
  '--project',
  'default',
  '--bail',
  '1',
  '--reporter',
  'dot',
  `--testTimeout=${PATIENCE}`,
  `--hookTimeout=${PATIENCE}`,
];

/** A small generator of seeded numbers in [0, 1): mulberry32 (public domain, T. Ettinger). */
function random(state) {
  let a = state;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A copy of the tree that tests can run in, with the packages of this one. */
function copyOfTree() {
  const copy = mkdtempSync(join(tmpdir(), 'valvetide-mutate-'));
  const skip = /\/(?:node_modules|dist|bundle|\.git)(?:\/|$)/u;
  for (const name of ['packages', 'tests', 'examples', 'docs'])
    cpSync(join(root, name), join(copy, name), { recursive: true, filter: (from) => !skip.test(from) });
  for (const name of readdirSync(root))
    if (/\.(?:json|ts|md)$|^LICENSE$/u.test(name)) cpSync(join(root, name), join(copy, name));
  mkdirSync(join(copy, 'node_modules/@valvetide'), { recursive: true });
  for (const name of readdirSync(join(root, 'node_modules')))
    if (name !== '@valvetide')
      symlinkSync(join(root, 'node_modules', name), join(copy, 'node_modules', name));
  for (const name of ['core', 'cli'])
    symlinkSync(join(copy, 'packages', name), join(copy, 'node_modules/@valvetide', name));
  return copy;
}

/** The same for many files, a few at a time. */
function isNoticed(copy, tests) {
  let from = 0;
  for (const most of AT_ONCE) {
    const part = tests.slice(from, from + most);
    if (part.length > 0 && noticed(copy, part)) return true;
    from += most;
  }
  return false;
}

/** Whether some test of these files fails. */
function noticed(copy, tests) {
  const { status } = spawnSync('npx', [...RUN, ...tests], {
    cwd: copy,
    stdio: 'ignore',
    timeout: PATIENCE,
    killSignal: 'SIGKILL',
  });
  return status !== 0;
}

/** Faults that change nothing, each with why; told by their words, since lines move. */
const equivalents = JSON.parse(readFileSync(join(root, 'tools/mutate/equivalents.json'), 'utf8'));
const isEquivalent = (name, line, put) =>
  equivalents.some((known) => known.file === name && known.line === line.trim() && known.put === put);

const files = readdirSync(join(root, CORE), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts') && name.includes('/') && `${CORE}/${name}`.includes(only))
  .map((name) => ({ name, text: readFileSync(join(root, CORE, name), 'utf8') }))
  .map((file) => ({ ...file, mutants: mutantsOf(file.text) }))
  .filter(({ mutants }) => mutants.length > 0);
const rooms = [...new Set(files.map(({ name }) => name.split('/')[0]))].sort();
const next = random(Number(seed));
const pick = (list) => list[Math.floor(next() * list.length)];

const copy = copyOfTree();
const importers = importersIn(root);
const survivors = [];
const tally = new Map(rooms.map((room) => [room, { planted: 0, noticed: 0 }]));
const planted = new Set();
try {
  for (let i = 0; planted.size < Number(count) && i < 20 * Number(count); i++) {
    // Room by room, so that small rooms are looked at as closely as large ones.
    const room = rooms[i % rooms.length];
    const file = pick(files.filter(({ name }) => name.startsWith(`${room}/`)));
    const mutant = pick(file.mutants);
    const line = file.text.slice(0, mutant.start).split('\n').length;
    const place = `${CORE}/${file.name}:${line}`;
    const was = file.text.slice(mutant.start, mutant.end);
    const what = `${place} ${mutant.kind}: ${was.replaceAll(/\s+/gu, ' ')} -> ${mutant.put.replaceAll(/\s+/gu, ' ')}`;
    if (planted.has(what) || isEquivalent(file.name, file.text.split('\n')[line - 1], mutant.put)) continue;
    planted.add(what);
    const tests = testsReaching(importers, `${CORE}/${file.name}`).map(([name]) => name);
    writeFileSync(
      join(copy, CORE, file.name),
      file.text.slice(0, mutant.start) + mutant.put + file.text.slice(mutant.end),
    );
    const caught = isNoticed(copy, near ? tests.slice(0, NEAR) : tests);
    writeFileSync(join(copy, CORE, file.name), file.text);
    tally.get(room).planted += 1;
    if (caught) tally.get(room).noticed += 1;
    else survivors.push(what);
    console.log(`${caught ? 'noticed ' : 'SURVIVES'} ${what}`);
  }
} finally {
  rmSync(copy, { recursive: true, force: true });
}
console.log('\nroom, planted, noticed');
for (const [room, { planted: all, noticed: of }] of tally) if (all > 0) console.log(`${room}, ${all}, ${of}`);
console.log(`\n${survivors.length} of ${planted.size} survive${survivors.length === 0 ? '' : ':'}`);
for (const line of survivors) console.log(line);
process.exitCode = survivors.length > 0 ? 1 : 0;
