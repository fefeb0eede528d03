/** Processor time, for tests that hold one piece of work against another of the same run: a busy machine lengthens both alike. */

/** Least of three runs [s], so that neither compiling nor a collection of garbage counts. */
export function leastProcessorTime(run: () => unknown): number {
  const times = [1, 2, 3].map(() => {
    const begun = process.cpuUsage();
    run();
    return processorTime(begun);
  });
  return Math.min(...times);
}

/** Since `begun` [s]. */
export function processorTime(begun: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(begun);
  return (user + system) / 1e6;
}
