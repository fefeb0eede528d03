/**
 * Plants faults in core and looks whether the tests notice:
 * `npm run mutate -- [count] [seed] [room or part of a path] [--near] [--covering=FILE] [--write]`.
 *
 * Each fault is one small edit: a sign, a constant by 5 %, a count by one, a guard removed, a comparison swapped. It is planted in a
 * copy of the tree, never in the tree itself. The test files nearest to it run first, then all others of the fast suite that reach it by
 * imports, or with --near not. With --covering only those run that run the function it stands in: FILE says so, and is made by one run
 * of the fast suite where it is not there. Faults known to change nothing are listed in mutate/equivalents.json with why. What survives
 * is told by room, with its place; exit code 1. --write keeps it in docs/planted-faults.md.
 */
import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { mutantsOf } from './mutate/mutants.mjs';
import { plantedReport, shareNoticed } from './mutate/plantedReport.mjs';
import { importersIn, testsReaching } from './mutate/related.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const words = process.argv.slice(2);
const near = words.includes('--near');
const coveringFile = words.find((word) => word.startsWith('--covering='))?.slice('--covering='.length);
const [count = '40', seed = '1', only = ''] = words.filter((word) => !word.startsWith('--'));
const CORE = 'packages/core/src';
/** How many test files run at a time, the nearest first, until one notices; how many count as near. */
const AT_ONCE = [3, 9, 3, 16, 1000];
const NEAR = 12;
/** A test file that takes as long waits for the quick ones [s]; how many of those count as near. */
const LONG = 2.5;
const NEAR_LONG = 3;
/** When a run hangs, and is noticed [ms]. */
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
  for (const name of ['packages', 'tests', 'examples', 'docs', 'tools'])
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
    if (part.length > 0 && someFails(copy, part)) return true;
    from += most;
  }
  return false;
}

/** Whether some test of these files fails. */
function someFails(copy, tests) {
  const { status } = spawnSync('npx', [...RUN, ...tests], {
    cwd: copy,
    stdio: 'ignore',
    timeout: PATIENCE,
    killSignal: 'SIGKILL',
  });
  return status !== 0;
}

/** By test file, the names of functions it runs of each file of core; made where it is not there. Null where nobody asked. */
function coveringIn(copy) {
  if (coveringFile === undefined) return null;
  const file = resolve(coveringFile);
  if (!existsSync(file)) {
    const words = ['--coverage', '--coverage.provider=custom', '--coverage.thresholds.lines=0'];
    const provider = `--coverage.customProviderModule=${join(root, 'tools/mutate/coveringTests.mjs')}`;
    const env = { ...process.env, COVERING_TESTS: file };
    const run = ['vitest', 'run', '--project', 'default', ...words, provider, `--testTimeout=${PATIENCE}`];
    spawnSync('npx', run, { cwd: copy, stdio: 'inherit', env });
  }
  const read = readFileSync(file, 'utf8')
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));
  return new Map(read.flatMap(({ tests, ...rest }) => tests.map((test) => [test, rest])));
}

/** Whether a test file runs what the fault stands in. What is run as a file is loaded counts for all that reach it. */
function covers(covering, test, file, { within }) {
  return covering === null || within === '' || covering.get(test)?.ran[file]?.includes(within) === true;
}

/** In the same order, those that take long behind the others; with --near a few of both. */
function quickFirst(tests) {
  const isLong = (test) => (covering?.get(test)?.seconds ?? 0) > LONG;
  const [quick, long] = [tests.filter((test) => !isLong(test)), tests.filter(isLong)];
  return near ? [...quick.slice(0, NEAR), ...long.slice(0, NEAR_LONG)] : [...quick, ...long];
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
const all = files.flatMap((file) => file.mutants.map((mutant) => ({ file, mutant })));
const next = random(Number(seed));
const pick = (list) => list[Math.floor(next() * list.length)];

const copy = copyOfTree();
const covering = coveringIn(copy);
const importers = importersIn(root);
const faults = [];
const survivors = [];
const tally = new Map(rooms.map((room) => [room, { planted: 0, noticed: 0 }]));
const planted = new Set();
try {
  for (let i = 0; planted.size < Number(count) && i < 20 * Number(count); i++) {
    // Each fault is as likely as any other, so that the share noticed is that of all.
    const { file, mutant } = pick(all);
    const room = file.name.split('/')[0];
    const line = file.text.slice(0, mutant.start).split('\n').length;
    const place = `${CORE}/${file.name}:${line}`;
    const was = file.text.slice(mutant.start, mutant.end);
    const what = `${place} ${mutant.kind}: ${was.replaceAll(/\s+/gu, ' ')} -> ${mutant.put.replaceAll(/\s+/gu, ' ')}`;
    if (planted.has(what) || isEquivalent(file.name, file.text.split('\n')[line - 1], mutant.put)) continue;
    planted.add(what);
    const tests = quickFirst(
      testsReaching(importers, `${CORE}/${file.name}`)
        .map(([name]) => name)
        .filter((name) => covers(covering, name, file.name, mutant)),
    );
    writeFileSync(
      join(copy, CORE, file.name),
      file.text.slice(0, mutant.start) + mutant.put + file.text.slice(mutant.end),
    );
    const caught = isNoticed(copy, tests);
    writeFileSync(join(copy, CORE, file.name), file.text);
    tally.get(room).planted += 1;
    if (caught) tally.get(room).noticed += 1;
    else survivors.push(what);
    faults.push({ what, caught });
    console.log(`${caught ? 'noticed ' : 'SURVIVES'} ${what}`);
  }
} finally {
  rmSync(copy, { recursive: true, force: true });
}
console.log('\nroom, planted, noticed');
for (const [room, { planted: tried, noticed: of }] of tally)
  if (tried > 0) console.log(`${room}, ${tried}, ${of}`);
console.log(`\n${shareNoticed(planted.size - survivors.length, planted.size)}`);
console.log(`${survivors.length} of ${planted.size} survive${survivors.length === 0 ? '' : ':'}`);
for (const line of survivors) console.log(line);
if (words.includes('--write'))
  writeFileSync(
    join(root, 'docs/planted-faults.md'),
    plantedReport(`npm run mutate -- ${words.join(' ')}`, faults),
  );
process.exitCode = survivors.length > 0 ? 1 : 0;
