/**
 * Times the program and its parts: `npm run bench`, `npm run bench -- --json`, `npm run bench -- duct command` for some groups,
 * `npm run bench -- --write` to keep the figures of all in docs/bench.md.
 * Each figure is measured several times, in processor time; a ratio is taken pair by pair in this run. Needs a build first.
 */
import { spawnSync } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { keepPage } from '../keepPage.mjs';
import { commandRows, rankRows, workerRows } from './commandRows.mjs';
import { curveRows } from './curveRows.mjs';
import { longDuct, shortDucts } from './ductRows.mjs';
import { marchRows } from './marchRows.mjs';
import { ARITHMETIC, summary } from './measure.mjs';
import { odeRow } from './odeRow.mjs';

const GROUPS = {
  duct: longDuct,
  ducts: shortDucts,
  ode: odeRow,
  march: marchRows,
  curve: curveRows,
  command: commandRows,
  rank: rankRows,
  workers: workerRows,
};

const words = process.argv.slice(2);
const json = words.includes('--json');
const write = words.includes('--write');
const asked = words.filter((word) => word !== '--json' && word !== '--write');
const unknown = asked.filter((word) => !(word in GROUPS));
if (write && asked.length > 0) {
  console.error('--write keeps the figures of all groups');
  process.exitCode = 2;
} else if (unknown.length > 0) {
  console.error(`no group ${unknown.join(', ')}; there are ${Object.keys(GROUPS).join(', ')}`);
  process.exitCode = 2;
} else if (asked.length === 1) {
  print(await GROUPS[asked[0]]());
} else {
  // Each group in a process of its own: what the compiler learnt of one slows another by half.
  print((asked.length > 0 ? asked : Object.keys(GROUPS)).flatMap(apart));
}

function apart(group) {
  process.stderr.write(`${group} ...\n`);
  const self = fileURLToPath(import.meta.url);
  const { status, stdout } = spawnSync(process.execPath, [self, group, '--json'], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  if (status !== 0) throw new Error(`${group} ended with ${status}`);
  return JSON.parse(stdout).rows;
}

/** Figures for readers: what each row is, and that they are of no particular machine. */
function document(rows) {
  return `# Bench

Written by \`npm run bench -- --write\`, ${availableParallelism()} cores, Node ${process.version}. Seconds are of processor time unless it says wall. Each figure is the
median of several runs; a ratio is taken pair by pair with what stands beside it, in turn in the same run, so that it means more on
another machine than the figure does. ${pace(rows)} Curves are of thirteen speeds, from three tenths of a mean piston speed of 20 m/s up to it.

${table(rows)}`;
}

/** How fast the machine was: what stands beside seconds of arithmetic, in the middle of all such rows. */
function pace(rows) {
  const references = rows.flatMap(({ against, reference }) =>
    against === ARITHMETIC ? reference.median : [],
  );
  const { median } = summary(references);
  return `What most stand beside, ${ARITHMETIC}, took ${short(median)} s here.`;
}

function print(rows) {
  if (write) {
    keepPage('docs/bench.md', document(rows));
  }
  process.stdout.write(json ? `${JSON.stringify({ node: process.version, rows }, null, 2)}\n` : table(rows));
}

/** Median with its range, and against what. */
function table(all) {
  const lines = [['what', 'unit', 'median', 'least to most', 'ratio', 'against']];
  for (const { name, unit, figure, ratio, against = '' } of all)
    lines.push([
      name,
      unit,
      short(figure.median ?? figure),
      figure.median === undefined ? '' : `${short(figure.least)} to ${short(figure.most)}`,
      ratio === undefined ? '' : short(ratio.median),
      against,
    ]);
  const widths = lines[0].map((_, i) => Math.max(...lines.map((line) => line[i].length)));
  const row = (line) => `| ${line.map((cell, i) => cell.padEnd(widths[i])).join(' | ')} |\n`;
  return row(lines[0]) + row(widths.map((w) => '-'.repeat(w))) + lines.slice(1).map(row).join('');
}

function short(x) {
  return x >= 100 ? x.toFixed(0) : x >= 10 ? x.toFixed(1) : x.toPrecision(3);
}
