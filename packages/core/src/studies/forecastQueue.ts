/** Forecasts asked for one by one and run together, each once. */
import type { Curve } from '../forecast/curve.ts';
import { meanScatterOf } from '../forecast/cycleScatter.ts';
import { type LeftOut, leftOutOf, type WholeCurve, wholeCurve } from '../forecast/wholeCurve.ts';
import type { JobControl, RunJobs, StudyJob } from './job.ts';

/** A curve that follows from another without a forecast. */
interface Derived {
  readonly from: string;
  /** Null where the other turns out not to tell. */
  readonly by: (curve: Curve) => Curve | null;
  /** Run in that case. */
  readonly otherwise: StudyJob | null;
  /** Once it was read. */
  curve?: Curve | null;
}

/** Jobs under way. */
interface Batch {
  readonly done: Promise<void>;
  readonly room: Promise<void>;
}

/** Collects jobs under names, runs them in one go, and keeps the curves. */
export class ForecastQueue {
  readonly #run: RunJobs;
  readonly #control: JobControl;
  readonly #curves = new Map<string, Curve | null>();
  readonly #waiting = new Map<string, StudyJob>();
  readonly #derived = new Map<string, Derived>();
  /** Under way: what was begun, and when there is room for more. */
  readonly #begun: Batch[] = [];
  readonly #names = new Set<string>();
  #done = 0;
  #expected = 0;

  constructor(run: RunJobs, control: JobControl) {
    this.#run = run;
    this.#control = control;
  }

  /** Queues a job; a name that was asked for before is not run again. */
  ask(name: string, job: StudyJob): void {
    if (this.knows(name)) return;
    this.#names.add(name);
    this.#waiting.set(name, job);
  }

  /**
   * Names what follows from a name that is known: it costs no forecast, and is there or lost together with that. Where it turns out not to
   * follow, the job given is run.
   */
  derive(name: string, from: string, by: Derived['by'], otherwise: StudyJob | null = null): void {
    if (!this.knows(name)) this.#derived.set(name, { from, by, otherwise });
  }

  /** Whether a job of that name was asked for. */
  knows(name: string): boolean {
    return this.#names.has(name) || this.#derived.has(name);
  }

  /** Whether an abort kept a job of that name from being run. */
  aborted(name: string): boolean {
    const derived = this.#derived.get(name);
    return derived === undefined ? this.#curves.get(name) === null : this.aborted(derived.from);
  }

  /** Jobs asked for so far. */
  get asked(): number {
    return this.#names.size;
  }

  /** So many more jobs are likely to follow, for progress. */
  expect(more: number): void {
    this.#expected = this.#names.size + more;
  }

  /**
   * Begins what is waiting and goes on, so that more can be asked for while threads are busy; {@link run} waits for it. What was begun
   * before goes first: the next begins when all of that is under way.
   */
  begin(): void {
    const waiting = [...this.#waiting];
    this.#waiting.clear();
    if (waiting.length === 0) return;
    const before = this.#begun.at(-1);
    let onRoom = (): void => {};
    const told = new Promise<void>((resolve) => {
      onRoom = resolve;
    });
    const batch = (): Promise<void> => this.#runBatch(waiting, onRoom);
    const done = before === undefined ? batch() : before.room.then(batch);
    // A failure is met where the batch is waited for.
    const ended = done.catch(() => {});
    this.#begun.push({ done, room: Promise.race([told, ended]) });
  }

  /** Runs what is waiting, and waits for all that was begun; then what turned out not to follow from it. */
  async run(): Promise<void> {
    do {
      this.begin();
      await Promise.all(this.#begun.splice(0).map(({ done }) => done));
    } while (this.#askUntold());
  }

  /** Queues the jobs of names whose curves don't follow from what was run; false where there is none. */
  #askUntold(): boolean {
    for (const [name, { from, otherwise }] of this.#derived) {
      if (otherwise === null || this.#found(from) === null || this.#found(name) !== null) continue;
      this.#derived.delete(name);
      this.ask(name, otherwise);
    }
    return this.#waiting.size > 0;
  }

  async #runBatch(batch: readonly (readonly [string, StudyJob])[], onRoom: () => void): Promise<void> {
    const { signal, onProgress } = this.#control;
    let done = 0;
    const progress = (now: number): void => {
      this.#done += now - done;
      done = now;
    };
    const curves = await this.#run(
      batch.map(([, job]) => job),
      {
        ...(signal === undefined ? {} : { signal }),
        onRoom,
        onProgress: (now) => {
          progress(now);
          onProgress?.(this.#done, Math.max(this.#names.size, this.#expected));
        },
      },
    );
    batch.forEach(([name], i) => {
      this.#curves.set(name, curves[i] ?? null);
    });
    progress(batch.length);
  }

  /** The curve of that name; null where it was not asked for, an abort came first or a speed was lost. */
  curve(name: string): WholeCurve | null {
    const curve = this.#found(name);
    return curve === null ? null : wholeCurve(curve);
  }

  #found(name: string): Curve | null {
    const derived = this.#derived.get(name);
    if (derived === undefined) return this.#curves.get(name) ?? null;
    const source = derived.curve === undefined ? this.#found(derived.from) : null;
    if (source !== null) derived.curve = derived.by(source);
    return derived.curve ?? null;
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
    const isAllRun = this.#curves.size === this.#names.size;
    return !stopped && isAllRun && [...this.#curves.values()].every((curve) => curve !== null);
  }
}
