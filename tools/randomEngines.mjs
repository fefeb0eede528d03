/**
 * Forecasts random engines and writes what came of them: `npm run random -- 300 [seed] [state file]`.
 *
 * With a state file, what was found stays in it, a line an engine, and the next run with another seed adds to it; a run of none
 * writes the report of what is there.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const [runs = '300', seed = '1', kept] = process.argv.slice(2);
const state = kept === undefined ? join(tmpdir(), `valvetide-random-${process.pid}.jsonl`) : resolve(kept);
if (!existsSync(state)) writeFileSync(state, '');
const status = runs === '0' ? 0 : tried();
const text = readFileSync(state, 'utf8').trim();
const engines = text === '' ? [] : text.split('\n').map((line) => JSON.parse(line));
if (kept === undefined) rmSync(state);

function tried() {
  const words = ['vitest', 'run', '--project', 'slow', 'tests/slow/randomEngines.test.ts'];
  return spawnSync('npx', words, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, RANDOM_RUNS: runs, RANDOM_SEED: seed, RANDOM_REPORT: state },
  }).status;
}

const count = (of, is) => of.filter(is).length;
const near = engines.flatMap(({ rpm, rated, status }) =>
  status.filter((_, i) => rpm[i] < 2 * rated).map((ended) => ended),
);
const all = engines.flatMap(({ status }) => status);
const seconds = engines.map((engine) => engine.seconds).sort((a, b) => a - b);
const percent = (part, whole) => (whole === 0 ? 'none' : `${((100 * part) / whole).toFixed(2)} %`);
const again = count(engines, ({ relations }) => relations.length > 0);
const faults = engines.flatMap(({ name, faults }) => faults.map((fault) => `- ${name}: ${fault}`));
const report = `# Random engines

Written by \`npm run random\`. Each engine is drawn by \`tests/random/randomEngine.ts\` from usual sizes to the ends of what a file may
say, beside the named corners of \`tests/random/corners.ts\`. It has to settle or say why, to close its balances, to say by a code
where a figure is beyond any engine. Some are looked at again in one other way, drawn by chance: in other units, with the fields of the file in
another order, one speed alone, or with a quarter of the step it has to come out the same; thinner air, a smaller carburetor past the peak and
more friction must not help. Seeds make the same engines again.

| what | count |
| --- | --- |
| engines | ${engines.length} |
| refused by the reader, by codes | ${count(engines, ({ refused }) => refused.length > 0)} |
| looked at again in another way | ${again} |
| speeds | ${all.length} |
| of those below twice the rated speed: settled | ${percent(
  count(near, (ended) => ended === 'settled'),
  near.length,
)} of ${near.length} |
| unsettled, said | ${count(all, (ended) => ended === 'unsettled')} |
| lost, said | ${count(all, (ended) => ended === 'lost')} |
| processor time of an engine, median and most | ${seconds[Math.floor(seconds.length / 2)] ?? 0} s, ${seconds.at(-1) ?? 0} s |
| faults | ${faults.length} |
${faults.length === 0 ? '' : `\n${faults.join('\n')}\n`}`;
writeFileSync(join(root, 'docs/random-engines.md'), report);
console.log(report);
process.exitCode = status === 0 && faults.length > 0 ? 1 : (status ?? 1);
