// Ranking in threads of your own, with progress and a way to stop. Run `npm run build` once, then
// `node examples/rank-in-threads.mjs`; with `--stop 20` it stops itself after 20 forecasts, as a button would.
// This one file is both sides: the main thread asks, and each thread runs the jobs it is sent.
import { availableParallelism } from 'node:os';
import { isMainThread, parentPort, Worker } from 'node:worker_threads';

if (isMainThread) await main();
else {
  // The part of the library that runs jobs and reads no files: it loads faster.
  const { runJob } = await import('@valvetide/core/job');
  parentPort.on('message', (job) => parentPort.postMessage(runJob(job)));
}

/** Threads that run jobs for a study. The result is the same however many there are. */
function openThreads(count) {
  const threads = Array.from({ length: count }, () => new Worker(new URL(import.meta.url)));
  const ask = (thread, job) =>
    new Promise((resolve, reject) => {
      thread.once('error', reject);
      thread.once('message', (curve) => {
        thread.off('error', reject);
        resolve(curve);
      });
      thread.postMessage(job);
    });
  /** What the library calls with its jobs; null stands for a job that a stop came before. */
  const run = async (jobs, { signal, onProgress } = {}) => {
    const curves = jobs.map(() => null);
    let next = 0;
    let done = 0;
    const work = async (thread) => {
      while (next < jobs.length && !signal?.aborted) {
        const at = next++;
        curves[at] = await ask(thread, jobs[at]);
        onProgress?.(++done, jobs.length);
      }
    };
    await Promise.all(threads.map(work));
    return curves;
  };
  return { run, close: () => Promise.all(threads.map((thread) => thread.terminate())) };
}

async function main() {
  const { pinBaseline, problemLine, rank, readChanges, readDocument } = await import('@valvetide/core');
  const good = (result) => {
    if (result.ok) return result.value;
    throw new Error(result.problems.map(problemLine).join('\n'));
  };
  const baseline = good(
    pinBaseline(
      good(
        readDocument(`
name: pit bike
engine: { cylinders: 1, bore: 61 mm, stroke: 51.4 mm }
chamber: { compression: 9.6 }
heads: { valvesPerCylinder: 2 }
exhaust: { primary: { length: 620 mm } }
`),
      ),
    ),
  );
  const changes = good(
    readChanges(`
changes:
  - { name: Longer pipe, set: { exhaust.primary.length: 740 mm }, cost: 60, hours: 1 }
  - { name: Skimmed head, add: { chamber.compression: 0.8 }, cost: 45, hours: 3, reversible: false }
`),
  );

  const stopAfter = Number(process.argv[process.argv.indexOf('--stop') + 1] ?? Number.NaN);
  const button = new AbortController();
  process.once('SIGINT', () => button.abort());
  const threads = openThreads(Math.min(4, availableParallelism()));
  try {
    const ranking = good(
      await rank(baseline, changes, {
        rpm: [5000, 6500],
        run: threads.run,
        signal: button.signal,
        onProgress: (done, total) => {
          if (process.stderr.isTTY) process.stderr.write(`\r${done} of at most ${total} forecasts `);
          if (done >= stopAfter) button.abort();
        },
      }),
    );
    console.log(ranking.complete ? 'Ranked.' : 'Stopped: what was done by then.');
    for (const { name, bandGainPct, sigmaPct } of ranking.changes) {
      const give = sigmaPct === null ? 'not worked out' : `+/- ${sigmaPct.toFixed(2)} %`;
      console.log(`${name}: ${bandGainPct.toFixed(2)} % of mean power, ${give}`);
    }
    for (const { change, why } of ranking.order.steps) console.log(`- ${change ?? 'Baseline'}: ${why}`);
  } finally {
    await threads.close();
  }
}
