/** Forecasts asked for one by one and run together, each once. */
import type { Curve } from '../forecast/curve.ts';
import { meanScatterOf } from '../forecast/cycleScatter.ts';
import { type LeftOut, leftOutOf, type WholeCurve, wholeCurve } from '../forecast/wholeCurve.ts';
import type { JobControl, RunJobs, StudyJob } from './job.ts';

/** Collects jobs under names, runs them in one go, and keeps the curves. */
export class ForecastQueue {
  readonly #run: RunJobs;
  readonly #control: JobControl;
  readonly #curves = new Map<string, Curve | null>();
  readonly #waiting = new Map<string, StudyJob>();
  #done = 0;
  #asked = 0;
  #expected = 0;

  constructor(run: RunJobs, control: JobControl) {
    this.#run = run;
    this.#control = control;
  }

  /** Queues a job; a name that was asked for before is not run again. */
  ask(name: string, job: StudyJob): void {
    if (this.knows(name)) return;
    this.#waiting.set(name, job);
    this.#asked += 1;
  }

  /** Whether a job of that name was asked for. */
  knows(name: string): boolean {
    return this.#curves.has(name) || this.#waiting.has(name);
  }

  /** Whether an abort kept a job of that name from being run. */
  aborted(name: string): boolean {
    return this.#curves.get(name) === null;
  }

  /** Jobs asked for so far. */
  get asked(): number {
    return this.#asked;
  }

  /** So many more jobs are likely to follow, for progress. */
  expect(more: number): void {
    this.#expected = this.#asked + more;
  }

  /** Runs what is waiting. */
  async run(): Promise<void> {
    const waiting = [...this.#waiting];
    this.#waiting.clear();
    if (waiting.length === 0) return;
    const before = this.#done;
    const { signal, onProgress } = this.#control;
    const curves = await this.#run(
      waiting.map(([, job]) => job),
      {
        ...(signal === undefined ? {} : { signal }),
        onProgress: (done) => {
          this.#done = before + done;
          onProgress?.(this.#done, Math.max(this.#asked, this.#expected));
        },
      },
    );
    waiting.forEach(([name], i) => {
      this.#curves.set(name, curves[i] ?? null);
    });
    this.#done = before + waiting.length;
  }

  /** The curve of that name; null where it was not asked for, an abort came first or a speed was lost. */
  curve(name: string): WholeCurve | null {
    const curve = this.#curves.get(name) ?? null;
    return curve === null ? null : wholeCurve(curve);
  }

  /** Lost speeds of every job, under the names that were asked for. */
  get leftOut(): readonly LeftOut[] {
    return [...this.#curves].flatMap(([name, curve]) => leftOutOf(name, curve));
  }

  /** Mean power over the speeds of that curve [kW]; null where there is none. */
  meanPower(name: string): number | null {
    const curve = this.curve(name);
    if (curve === null) return null;
    return curve.points.reduce((sum, { powerKw }) => sum + powerKw, 0) / curve.points.length;
  }

  /** How far that mean scatters where cycles never repeat, over the mean [-]. */
  meanScatter(name: string): number {
    return meanScatterOf(this.curve(name)?.points ?? []);
  }

  /** Whether every job that was asked for was run and no abort came: only then is there any use in asking for more. */
  get complete(): boolean {
    const stopped = this.#control.signal?.aborted === true;
    return (
      !stopped && this.#waiting.size === 0 && [...this.#curves.values()].every((curve) => curve !== null)
    );
  }
}
