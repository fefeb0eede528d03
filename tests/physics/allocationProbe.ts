/** A program of its own, run by `allocation.test.ts`: marches an engine and prints the bytes a cylinder that a right-hand side puts on the heap. */
import { type HeapProfiler, Session } from 'node:inspector/promises';
import { marchDegrees } from '../../packages/core/src/cycle/march.ts';
import { createSimulation } from '../../packages/core/src/forecast/simulation.ts';
import { renewCopies } from '../../packages/core/src/network/copiedEnds.ts';
import { bigBlock } from '../../packages/core/test/support/bigBlock.ts';

/** Bytes that were put on the heap while `run` ran, whatever became of them, by a sample of them. */
async function bytesOf(run: () => void): Promise<number> {
  const session = new Session();
  session.connect();
  await session.post('HeapProfiler.startSampling', {
    samplingInterval: 256,
    includeObjectsCollectedByMajorGC: true,
    includeObjectsCollectedByMinorGC: true,
  });
  run();
  const { profile } = await session.post('HeapProfiler.stopSampling');
  session.disconnect();
  const sum = ({ selfSize, children }: HeapProfiler.SamplingHeapProfileNode): number =>
    selfSize + children.reduce((bytes, child) => bytes + sum(child), 0);
  return sum(profile.head);
}

const fidelity = 'representative';
// Until the compiler has taken up all that a march calls; a curve has a dozen speeds.
createSimulation(bigBlock(), { fidelity }).runSpeed(5000);
const { march } = createSimulation(bigBlock(), { fidelity }).runSpeed(5000);
const before = march.evaluations;
const bytes = await bytesOf(() => {
  for (let i = 0; i < 2; i++) {
    renewCopies(march.network, march.y);
    marchDegrees(march, 0, 720);
  }
});
process.stdout.write(`${bytes / (march.evaluations - before) / march.network.cylinders.length}\n`);
