/** What the command takes as its user starts it: help, a check of a file, one speed, a ranking; and how much memory. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { paired, summary } from './measure.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));
const command = `${root}packages/cli/bin/valvetide.js`;

/** A process's own figures of itself, printed when it ends: processor time [s], most memory [MB] and time on the wall [s]. */
const REPORT = `data:text/javascript,${encodeURIComponent(
  "process.on('exit',()=>{const{userCPUTime:u,systemCPUTime:s,maxRSS:m}=process.resourceUsage();process.stderr.write('\\n#usage '+(u+s)/1e6+' '+m/1024+' '+performance.now()/1e3+'\\n')})",
)}`;

function run(words) {
  const { stderr, status } = spawnSync(process.execPath, ['--import', REPORT, ...words], {
    cwd: root,
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`${words.join(' ')} ended with ${status}: ${stderr}`);
  const [cpu, memory, wall] = stderr
    .slice(stderr.lastIndexOf('#usage ') + 7)
    .split(' ')
    .map(Number);
  return { cpu, memory, wall };
}

/** The first example with changes to rank. */
function ranked() {
  const name = readdirSync(`${root}examples`).find((one) =>
    existsSync(`${root}examples/${one}/changes.yaml`),
  );
  return `examples/${name}`;
}

export async function commandRows() {
  const file = `${ranked()}/engine.yaml`;
  const cases = [
    ['--help', ['--help']],
    ['inspect', ['inspect', file]],
    ['one speed, --quick', ['forecast', file, '--rpm', '4000', '--csv', '--quick']],
    ['one speed with its spread', ['forecast', file, '--rpm', '4000', '--csv', '--workers', '1'], 2],
  ];
  const rows = [];
  for (const [name, words, runs] of cases) {
    const memory = [];
    const once = () => {
      const used = run([command, ...words]);
      memory.push(used.memory);
      return used.cpu;
    };
    const pairs = await paired(once, () => run(['-e', '0']).cpu, runs);
    rows.push({
      name: `valvetide: ${name}`,
      unit: 's of processor time',
      ...pairs,
      against: 'node that does nothing',
    });
    rows.push({ name: `valvetide: ${name}, memory`, unit: 'MB', figure: summary(memory) });
  }
  return rows;
}

/** The ranking of one example's changes, alone and in pairs, with uncertainty: on one core and on all. */
export async function rankRows() {
  const folder = ranked();
  const words = (workers) => [
    command,
    'rank',
    `${folder}/engine.yaml`,
    '--changes',
    `${folder}/changes.yaml`,
    '--workers',
    `${workers}`,
    '--json',
  ];
  const cores = availableParallelism();
  const memory = [];
  const cpu = [];
  const all = () => {
    const used = run(words(cores));
    memory.push(used.memory);
    return used.wall;
  };
  const one = () => {
    const used = run(words(1));
    cpu.push(used.cpu);
    return used.wall;
  };
  // Half a minute each: what a first run warms does not count.
  const pairs = await paired(one, all, 2, false);
  const name = 'valvetide: ranking of all changes';
  return [
    { name: `${name}, one worker`, unit: 's of processor time', figure: summary(cpu) },
    { name: `${name}, one worker`, unit: 's on the wall', ...pairs, against: `${cores} workers` },
    { name: `${name}, ${cores} workers`, unit: 's on the wall', figure: pairs.reference },
    { name: `${name}, ${cores} workers, memory`, unit: 'MB', figure: summary(memory) },
  ];
}

/** The same command in two processes that share nothing but the machine, at once; time on the wall until both have ended [s]. */
async function twoAtOnce(words) {
  const from = performance.now();
  await Promise.all(
    [0, 1].map(
      () =>
        new Promise((resolve, reject) => {
          const child = spawn(process.execPath, words, { cwd: root, stdio: 'ignore' });
          child.once('error', reject);
          child.once('close', (status) =>
            status === 0 ? resolve() : reject(new Error(`${words.join(' ')} ended with ${status}`)),
          );
        }),
    ),
  );
  return (performance.now() - from) / 1e3;
}

/**
 * A sweep on one worker beside the same on two, on the wall, and what two processes that share nothing reach: no study can divide
 * its work better than that, since two cores at once run each slower than one alone.
 */
export async function workerRows() {
  const words = (workers) => [
    command,
    'sweep',
    'examples/scrambler/engine.yaml',
    '--vary',
    'exhaust.primary.length=20:40:1in',
    '--rpm',
    '5000,6000,7000',
    '--workers',
    `${workers}`,
    '--json',
  ];
  const pairs = await paired(
    () => run(words(1)).wall,
    () => run(words(2)).wall,
    3,
  );
  const apart = await paired(
    () => 2 * run(words(1)).wall,
    () => twoAtOnce(words(1)),
    3,
  );
  return [
    {
      name: 'valvetide: sweep of 21 lengths, one worker',
      unit: 's on the wall',
      ...pairs,
      against: 'two workers',
    },
    {
      name: 'valvetide: two such sweeps, one after the other',
      unit: 's on the wall',
      ...apart,
      against: 'both at once: what the machine gives',
    },
  ];
}
