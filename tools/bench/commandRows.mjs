/** What the command takes as its user starts it: help, a check of a file, one speed, a ranking; and how much memory. */
import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { measured } from './measure.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));
const command = `${root}packages/cli/bin/valvetide.js`;

/** A process's own figures of itself, printed when it ends: processor time [s] and most memory [MB]. */
const REPORT = `data:text/javascript,${encodeURIComponent(
  "process.on('exit',()=>{const{userCPUTime:u,systemCPUTime:s,maxRSS:m}=process.resourceUsage();process.stderr.write('\\n#usage '+(u+s)/1e6+' '+m/1024+'\\n')})",
)}`;

function run(args) {
  const { stderr, status } = spawnSync(process.execPath, ['--import', REPORT, command, ...args], {
    cwd: root,
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`valvetide ${args.join(' ')} ended with ${status}: ${stderr}`);
  const [cpu, memory] = stderr
    .slice(stderr.lastIndexOf('#usage ') + 7)
    .split(' ')
    .map(Number);
  return { cpu, memory };
}

export async function commandRows() {
  const listed = readdirSync(`${root}examples`, { withFileTypes: true }).find(
    (entry) => entry.isDirectory() && readdirSync(`${root}examples/${entry.name}`).includes('changes.yaml'),
  );
  const folder = `examples/${listed.name}`;
  const file = `${folder}/engine.yaml`;
  const cases = [
    ['--help', ['--help'], 5],
    ['inspect', ['inspect', file], 5],
    ['one speed', ['forecast', file, '--rpm', '4000', '--csv'], 5],
    [
      'ranking of all changes, one worker',
      ['rank', file, '--changes', `${folder}/changes.yaml`, '--workers', '1', '--json'],
      1,
    ],
  ];
  const rows = [];
  for (const [name, args, runs] of cases) {
    let memory = 0;
    const figure = await measured(() => {
      const used = run(args);
      memory = used.memory;
      return used.cpu;
    }, runs);
    rows.push({ name: `valvetide: ${name}`, unit: 's of processor time', figure });
    rows.push({
      name: `valvetide: ${name}, memory`,
      unit: 'MB',
      figure: { least: memory, median: memory, most: memory },
    });
  }
  return rows;
}
