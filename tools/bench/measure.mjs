/** Figures measured several times: machines are shared, so that a median and its range say more than one run. */

const RUNS = 5;

/** Takes a figure several times, after one run that warms caches and the compiler. */
export async function measured(once, runs = RUNS) {
  await once();
  const figures = [];
  for (let i = 0; i < runs; i++) figures.push(await once());
  return summary(figures);
}

/** Two figures in turn, a b a b …, and the ratio of each pair: what changes the machine's speed changes both. */
export async function paired(a, b, runs = RUNS, warm = true) {
  if (warm) {
    await a();
    await b();
  }
  const pairs = [];
  for (let i = 0; i < runs; i++) pairs.push([await a(), await b()]);
  return {
    figure: summary(pairs.map(([x]) => x)),
    reference: summary(pairs.map(([, y]) => y)),
    ratio: summary(pairs.map(([x, y]) => x / y)),
  };
}

/** The fixed piece of arithmetic, in words. */
export const ARITHMETIC = 'a hundred million square roots, each of the one before';

/** Seconds in turn with a fixed piece of arithmetic, so that the ratio means the same on another machine. */
export async function besideArithmetic(once, runs = RUNS) {
  return {
    ...(await paired(once, arithmetic, runs)),
    against: ARITHMETIC,
  };
}

/** The same of a figure in nanoseconds. */
export async function besideOneRoot(once, runs = RUNS) {
  return { ...(await paired(once, () => 10 * arithmetic(), runs)), against: 'one such square root' };
}

/** Seconds of processor time of a hundred million, from a tenth of them; each root waits for the one before, so that nothing but the clock of the machine counts. */
function arithmetic() {
  const tenth = seconds(() => {
    let x = 2;
    for (let i = 0; i < 10_000_000; i++) x = Math.sqrt(x + i);
    if (!(x > 0)) throw new Error('no number');
  });
  return 10 * tenth;
}

export function summary(figures) {
  const sorted = [...figures].sort((x, y) => x - y);
  return { least: sorted[0], median: sorted[sorted.length >> 1], most: sorted[sorted.length - 1] };
}

/** Seconds of processor time that `run` takes: on a shared machine the clock on the wall counts others' work too. */
export function seconds(run) {
  const from = process.cpuUsage();
  run();
  const { user, system } = process.cpuUsage(from);
  return (user + system) / 1e6;
}
