/** The march of one engine: what a cell and stage cost all told, a cycle, and the stage of a cylinder that burns. */
import { createNetwork, createSimulation, createStepper, decode, marchDegrees, SSP2_FOUR } from './core.mjs';
import { besideStageInC } from './ductRows.mjs';
import { engines, thirteenSpeeds } from './engines.mjs';
import { besideArithmetic, besideOneRoot, seconds } from './measure.mjs';

const STEPS = 50_000;
/** So short that the state stays where it is [deg]. */
const SHORT = 1e-9;

export async function marchRows() {
  const { name, combination } = engines().find((one) => one.combination.block.cylinders === 6);
  const rpm = thirteenSpeeds(combination)[4];
  const simulation = createSimulation(combination, { fidelity: 'all' });
  const cells = simulation.engine.spec.ducts.reduce((sum, duct) => sum + duct.cells, 0);
  const { march } = simulation.runSpeed(rpm);
  const cycle = () => seconds(() => marchDegrees(march, 0, 720));
  const before = march.evaluations;
  cycle();
  const each = (march.evaluations - before) * cells;
  return [
    {
      name: `a march of ${name}, all told`,
      unit: 'ns a cell and stage',
      ...(await besideStageInC(() => (1e9 * cycle()) / each)),
    },
    { name: `one cycle of ${name}, every cylinder`, unit: 's', ...(await besideArithmetic(cycle)) },
    await cylinderRow(simulation.engine.spec, march),
  ];
}

/** What a march alters of a cylinder. */
const ALTERED = ['speed', 'burn', 'burning', 'firing', 'endGas', 'residual', 'reference'];

/** Steps of every cylinder where one of them burns, in a network of nothing else: a quarter of a step is a stage. */
async function cylinderRow({ tables, cylinders }, march) {
  marchDegrees(march, 0, 20);
  const network = createNetwork({ tables, cylinders });
  const y = network.vector();
  const stepper = createStepper(SSP2_FOUR, network.size, network.vector);
  const take = network.kernel.stepsOf(stepper);
  const entries = network.size / cylinders.length;
  network.cylinders.forEach((cylinder, i) => {
    const marched = march.network.cylinders[i];
    for (const name of ALTERED) cylinder[name] = marched[name];
    Object.assign(cylinder.start, marched.start);
    y.set(march.y.subarray(marched.offset, marched.offset + entries), cylinder.offset);
  });
  const speed = march.network.degreesPerSecond;
  const clock = Float64Array.of(20, 20 + SHORT, SHORT / speed);
  decode(network, 20, y);
  const once = () => {
    const taken = seconds(() => {
      for (let i = 0; i < STEPS; i++) take(y, clock, speed);
    });
    if (stepper.stages[3].every((rate) => rate === 0)) throw new Error('these are no cylinders');
    return (1e9 * taken) / (stepper.stages.length * STEPS * network.cylinders.length);
  };
  return { name: 'stage of a cylinder', unit: 'ns', ...(await besideOneRoot(once)) };
}
