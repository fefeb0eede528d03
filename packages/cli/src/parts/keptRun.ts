/** Runs only what was not done before, and of that only what falls to this machine. */
import type { Curve, RunJobs, StudyJob } from '@valvetide/core';
import { jobKey } from './jobKey.ts';
import type { PartStore } from './partStore.ts';

/** One machine of several: every job whose number leaves `index` when divided by `count` falls to it. */
export interface Shard {
  /** From 0. */
  readonly index: number;
  readonly count: number;
}

/** What became of the jobs of a study. */
export interface Tally {
  /** Done before. */
  kept: number;
  /** Done now. */
  run: number;
  /** Left to other machines. */
  others: number;
}

/** The curves come back as from `run`, byte for byte; null for jobs that are left to others. */
export function keptRun(
  run: RunJobs,
  store: PartStore,
  shard: Shard | null,
): { readonly run: RunJobs; readonly tally: Tally } {
  const tally: Tally = { kept: 0, run: 0, others: 0 };
  let asked = 0;
  const kept: RunJobs = async (jobs, { signal, onProgress, onRoom } = {}) => {
    const keys = jobs.map(jobKey);
    const mine = keys.map((key, i) => {
      const falls = shard === null || (asked + i) % shard.count === shard.index;
      if (store.has(key)) tally.kept += 1;
      else if (!falls) tally.others += 1;
      // The same job twice in one go is run once.
      else if (keys.indexOf(key) === i) return true;
      return false;
    });
    asked += jobs.length;
    const indices = jobs.flatMap((_, i) => (mine[i] ? [i] : []));
    const before = jobs.length - indices.length;
    const curves: (Curve | null)[] = jobs.map(() => null);
    const keep = (curve: Curve, at: number): void => {
      const i = indices[at];
      if (curves[i] !== null) return;
      curves[i] = curve;
      store.add(keys[i], curve);
      tally.run += 1;
    };
    const done = await run(
      indices.map((i): StudyJob => jobs[i]),
      {
        ...(signal === undefined ? {} : { signal }),
        ...(onRoom === undefined ? {} : { onRoom }),
        onProgress: (done) => onProgress?.(before + done, jobs.length),
        onCurve: keep,
      },
    );
    // Whoever ran them may show no curve before all are done.
    done.forEach((curve, at) => {
      if (curve !== null) keep(curve, at);
    });
    return keys.map((key, i) => curves[i] ?? curves[keys.indexOf(key)] ?? store.curve(key));
  };
  return { run: kept, tally };
}
