/**
 * A long study over a queue, with four workers of which one is killed every half minute: `npm run queue:trial -- 20000`. Counts what
 * was lost, done twice or came back with other bytes, and what memory it took; `--write` keeps the report in docs/queue-trial.md.
 * One job in a thousand is a real forecast. The others take a few milliseconds, so that the queue is tried and not the patience:
 * their curve is one real curve times a figure of the job. Needs a build and redis-server.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { pinBaseline, readDocument, runJob, sweep } from '@valvetide/core';
import { QueueEvents } from 'bullmq';
import { Redis } from 'ioredis';
import { jobKey } from '../packages/cli/dist/parts/jobKey.js';
import { QUEUE_NAME } from '../packages/cli/dist/queue/queueConnection.js';
import { openQueueRunner } from '../packages/cli/dist/queue/queueRunner.js';
import { workOnQueue } from '../packages/cli/dist/queue/workOnQueue.js';
import { keepHeapLean } from '../packages/cli/dist/workers/leanHeap.js';
import { keepPage } from './keepPage.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const self = fileURLToPath(import.meta.url);
const RPM = [3000, 4000, 5000];
const WORKERS = 4;
const KILL_EVERY = 30_000;
const REAL_ONE_IN = 1000;
/** Milliseconds of work that a job which is no forecast stands for. */
const BUSY = 2;

const file = join(root, 'examples/scrambler/engine.yaml');
const sheet = (name) => readFileSync(join(root, 'examples/scrambler', name), 'utf8');

function baselineOf() {
  const read = readDocument(readFileSync(file, 'utf8'), { file });
  const pinned = read.ok ? pinBaseline(read.value, { sheet }) : read;
  if (!pinned.ok) throw new Error(`${file} is not read`);
  return pinned.value;
}

/** What a job comes to, the same in every process. */
function trialRunner(combination) {
  const model = runJob({ combination, rpm: RPM });
  const one = (job, busy = 0) => {
    const key = Number.parseInt(jobKey(job).slice(0, 8), 16);
    if (key % REAL_ONE_IN === 0) return runJob(job);
    const until = performance.now() + busy;
    const factor = 0.9 + key / 2 ** 32 / 5;
    const points = model.points.map((point) => ({
      ...point,
      torqueNm: point.torqueNm * factor,
      powerKw: point.powerKw * factor,
    }));
    while (performance.now() < until);
    return { ...model, points };
  };
  return { one, run: async (jobs) => jobs.map((job) => one(job, BUSY)), close: async () => {} };
}

if (process.argv[2] === 'work') {
  const stop = new AbortController();
  process.once('SIGTERM', () => stop.abort());
  const say = (line) => process.stderr.write(`${line}\n`);
  const runner = trialRunner(baselineOf().combination);
  const address = { url: process.argv[3], shown: process.argv[3] };
  await workOnQueue(address, {
    workers: 1,
    runner,
    signal: stop.signal,
    idleSeconds: null,
    onDone() {},
    say,
  });
} else {
  const words = process.argv.slice(2);
  const report = await trial(Number(words.find((word) => /^\d+$/.test(word)) ?? 20_000));
  const text = document(report);
  process.stdout.write(text);
  if (words.includes('--write')) keepPage('docs/queue-trial.md', text);
  process.exitCode = report.lost + report.twice + report.otherBytes > 0 ? 1 : 0;
}

async function trial(cases) {
  const folder = mkdtempSync(join(tmpdir(), 'valvetide-trial-'));
  const port = await freePort();
  const server = spawn(
    'redis-server',
    ['--port', `${port}`, '--bind', '127.0.0.1', '--save', '', '--dir', folder],
    { stdio: 'ignore' },
  );
  const url = `redis://127.0.0.1:${port}`;
  const probe = new Redis(url, { maxRetriesPerRequest: null });
  probe.on('error', () => {});
  await probe.ping();
  const workers = [];
  const begin = (i) => {
    workers[i] = spawn(process.execPath, [self, 'work', url], { stdio: ['ignore', 'ignore', 'inherit'] });
  };
  for (let i = 0; i < WORKERS; i++) begin(i);
  const events = new QueueEvents(QUEUE_NAME, { connection: probe });
  let [kills, takenUp] = [0, 0];
  events.on('stalled', () => {
    takenUp += 1;
  });
  const killing = setInterval(() => {
    const i = kills % WORKERS;
    kills += 1;
    workers[i].kill('SIGKILL');
    begin(i);
  }, KILL_EVERY);
  const runner = await openQueueRunner({ url, shown: url }, (line) => process.stderr.write(`${line}\n`));
  try {
    const counted = await study(cases, runner);
    const info = await probe.info('memory');
    return {
      cases,
      kills,
      takenUp,
      ...counted,
      serverMb: Number(/used_memory_peak:(\d+)/.exec(info)[1]) / 2 ** 20,
    };
  } finally {
    clearInterval(killing);
    await runner.close();
    for (const worker of workers) worker.kill('SIGKILL');
    await events.close();
    probe.disconnect();
    server.kill('SIGKILL');
    await wait(200);
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The study itself, in this process, and what is seen of each job that it asks for. */
async function study(cases, runner) {
  // As the command does.
  keepHeapLean();
  const baseline = baselineOf();
  const { one } = trialRunner(baseline.combination);
  const seen = new Map();
  let [otherBytes, real] = [0, 0];
  const run = (jobs, control) =>
    runner.run(jobs, {
      ...control,
      onCurve: (curve, i) => {
        const key = jobKey(jobs[i]);
        seen.set(key, (seen.get(key) ?? 0) + 1);
        if (Number.parseInt(key.slice(0, 8), 16) % REAL_ONE_IN === 0) real += 1;
        if (JSON.stringify(curve) !== JSON.stringify(one(jobs[i]))) otherBytes += 1;
      },
    });
  const columns = Math.min(250, Math.ceil(Math.sqrt(cases)));
  const rows = Math.ceil((cases - 1) / columns);
  const steps = (count, from, to, unit) =>
    Array.from({ length: count }, (_, i) => `${from + ((to - from) * i) / count} ${unit}`);
  const variables = [
    { path: 'exhaust.primary.length', values: steps(rows, 20, 40, 'in') },
    { path: 'chamber.compression', values: Array.from({ length: columns }, (_, i) => 8 + (3 * i) / columns) },
  ];
  const began = performance.now();
  const from = process.cpuUsage();
  const resident = [];
  const sampling = setInterval(() => resident.push(process.memoryUsage.rss() / 2 ** 20), 500);
  let told = began;
  const swept = await sweep(baseline, variables, {
    rpm: RPM,
    band: { fromRpm: RPM[0], toRpm: RPM[RPM.length - 1] },
    most: 1_000_000,
    sheet,
    run,
    onProgress: (done, total) => {
      if (performance.now() - told < 15_000) return;
      told = performance.now();
      process.stderr.write(`${done} of ${total}, ${Math.round(process.memoryUsage.rss() / 2 ** 20)} MB\n`);
    },
  });
  clearInterval(sampling);
  const { user, system } = process.cpuUsage(from);
  if (!swept.ok) throw new Error(JSON.stringify(swept.problems));
  const asked = rows * columns + 1;
  const counts = [...seen.values()];
  return {
    asked,
    lost: asked - seen.size + swept.value.points.filter(({ figures }) => figures === null).length,
    twice: counts.filter((count) => count > 1).length,
    otherBytes,
    real,
    seconds: (performance.now() - began) / 1000,
    ownMs: (user + system) / 1000 / asked,
    firstMb: resident[Math.floor(resident.length / 10)],
    middleMb: resident[Math.floor(resident.length / 2)],
    mostMb: Math.max(...resident),
  };
}

function document(r) {
  const row = (what, value) => `| ${what.padEnd(58)} | ${String(value).padStart(8)} |\n`;
  return [
    '# A long study on a queue\n\n',
    '`npm run queue:trial` runs a sweep of two sizes over a Redis server with four workers of one thread, of which one is killed every\n',
    '30 s and another started. One job in a thousand is a real forecast of the scrambler at three speeds; the others stand for one with 2 ms\n',
    'of work and a curve of the same size, so that the queue is tried and not the patience. Each curve that came back was compared with\n',
    'the bytes that one thread gives for that job. This is the last report that was kept.\n\n',
    row('', 'figure'),
    `| ${'-'.repeat(58)} | ${'-'.repeat(7)}: |\n`,
    row('forecasts asked for', r.asked),
    row('of them real', r.real),
    row('workers killed', r.kills),
    row('forecasts taken up again after their worker was lost', r.takenUp),
    row('lost', r.lost),
    row('came back twice', r.twice),
    row('came back with other bytes', r.otherBytes),
    row('minutes', (r.seconds / 60).toFixed(1)),
    row('forecasts a second', (r.asked / r.seconds).toFixed(0)),
    row('processor time of the study itself, a forecast [ms]', r.ownMs.toFixed(1)),
    row('resident memory of the study after a tenth [MB]', r.firstMb.toFixed(0)),
    row('resident memory half way [MB]', r.middleMb.toFixed(0)),
    row('resident memory at the most [MB]', r.mostMb.toFixed(0)),
    row('memory of the server at the most [MB]', r.serverMb.toFixed(0)),
  ].join('');
}

async function freePort() {
  const server = createServer();
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address();
  await new Promise((resolve) => server.close(resolve));
  return port;
}
