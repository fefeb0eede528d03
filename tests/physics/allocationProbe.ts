/** A program of its own, run by `allocation.test.ts`: marches an engine and prints the bytes that a step puts on the heap. */
import { type HeapProfiler, Session } from 'node:inspector/promises';
import { type March, marchDegrees } from '../../packages/core/src/cycle/march.ts';
import { createSimulation } from '../../packages/core/src/forecast/simulation.ts';
import { renewCopies } from '../../packages/core/src/network/copiedEnds.ts';
import { bigBlock } from '../../packages/core/test/support/bigBlock.ts';

/** The heap is looked at on the average once in so many bytes. */
const samplingInterval = 128;

/** Bytes that were put on the heap below `marchDegrees`, whatever became of them. */
function bytesBelow(node: HeapProfiler.SamplingHeapProfileNode, within = false): number {
  const counts = within || node.callFrame.functionName === marchDegrees.name;
  return node.children.reduce((sum, child) => sum + bytesBelow(child, counts), counts ? node.selfSize : 0);
}

const session = new Session();
session.connect();

/** Bytes that marching so many degrees puts on the heap. */
async function bytesOf(march: March, from: number, degrees: number): Promise<number> {
  await session.post('HeapProfiler.startSampling', {
    samplingInterval,
    includeObjectsCollectedByMajorGC: true,
    includeObjectsCollectedByMinorGC: true,
  });
  marchDegrees(march, from, degrees);
  const { profile } = await session.post('HeapProfiler.stopSampling');
  return bytesBelow(profile.head);
}

/** Crank angles at which something happens in a cylinder [deg], 0 to 720, in order. */
function eventsOf({ network, calendars }: March): number[] {
  const all = calendars.flatMap(({ angles }, i) =>
    [...angles].map((a) => network.cylinders[i].firingAngle + a),
  );
  return all.map((a) => a - 720 * Math.floor(a / 720)).sort((a, b) => a - b);
}

/** Degrees on both sides of an event that are marched uncounted: once a cycle a burn is planned, which may put something on the heap. */
const AROUND = 0.25;
/** Shortest stretch between two events that is counted [deg]. */
const SHORTEST = 5;

/** A cycle, cut where its events are; bytes a step between them, where they are counted. */
async function bytesAStep(march: March, counted: boolean): Promise<number> {
  renewCopies(march.network, march.y);
  let bytes = 0;
  let steps = 0;
  let at = 0;
  for (const event of eventsOf(march)) {
    if (counted && event - AROUND - at > SHORTEST) {
      const before = march.steps;
      bytes += await bytesOf(march, at, event - AROUND - at);
      steps += march.steps - before;
      at = event - AROUND;
    }
    const behind = Math.min(720, event + AROUND);
    if (behind > at) marchDegrees(march, at, behind - at);
    at = Math.max(at, behind);
  }
  marchDegrees(march, at, 720 - at);
  return bytes / steps;
}

/** Cycles until the compiler has taken up all that a march calls, and those that are looked at, at most. */
const WARMING = 10;
const LOOKED_AT = 10;

const { exhaustSystem } = bigBlock();
/** An engine with ducts, ends, valves, sprays, copies and places along ducts. */
const engine = bigBlock({
  exhaustSystem: { ...exhaustSystem, balance: { at: 0.2, length: 0.4, area: 1.5e-3, wallTemperature: 700 } },
});
const { march } = createSimulation(engine, { fidelity: 'representative' }).runSpeed(5000);
for (let i = 0; i < WARMING; i++) await bytesAStep(march, false);
// The least of some cycles: in others the compiler takes up once more what a march calls, and what it notes of that is on the heap too.
// What the march itself puts there it puts there in every cycle.
let least = Number.POSITIVE_INFINITY;
for (let i = 0; i < LOOKED_AT && least >= 1; i++) least = Math.min(least, await bytesAStep(march, true));
process.stdout.write(`${least}\n`);
