/** Tries thousands of hostile inputs of every kind and writes what came of them: `npm run hostile -- 5000 [seed]`. */
import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const [runs = '5000', seed = '1'] = process.argv.slice(2);
const lines = join(tmpdir(), `valvetide-hostile-${process.pid}.md`);
writeFileSync(lines, '');
const words = ['vitest', 'run', '--project', 'default', 'packages/cli/test/hostile.test.ts'];
const { status } = spawnSync('npx', words, {
  cwd: root,
  stdio: 'inherit',
  env: { ...process.env, HOSTILE_RUNS: runs, HOSTILE_SEED: seed, HOSTILE_REPORT: lines },
});
const report = `# Hostile input

Written by \`npm run hostile -- ${runs} ${seed}\`. Each mutant of a sound file or command line is accepted, or refused by coded lines with
their place; none may end as a fault of the program, show a stack, take longer than seconds, or have anything read that was not named.
What the codes mean: [exit codes](guide/exit-codes.md). Studies of shelves are stopped at their first forecast, before which all of a shelf is
read: those that ended 130 were accepted.

| mutants of | tried | with a fault | how they ended |
| --- | --- | --- | --- |
${readFileSync(lines, 'utf8')}`;
rmSync(lines);
writeFileSync(join(root, 'docs/hostile.md'), report);
console.log(report);
process.exitCode = status ?? 1;
