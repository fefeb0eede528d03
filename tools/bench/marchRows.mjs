/** The march of one engine: what a cell and stage cost all told, a cycle, and the stage of a cylinder that burns. */
import { createNetwork, createSimulation, decode, marchDegrees, ratesOfDecoded } from './core.mjs';
import { besideStageInC } from './ductRows.mjs';
import { engines, thirteenSpeeds } from './engines.mjs';
import { besideArithmetic, besideOneRoot, seconds } from './measure.mjs';

const STAGES = 200_000;

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

/** Decoding and rates of every cylinder where one of them burns, in a network of nothing else. */
async function cylinderRow({ tables, cylinders }, march) {
  marchDegrees(march, 0, 20);
  const network = createNetwork({ tables, cylinders });
  const y = network.vector();
  const d = network.vector();
  const entries = network.size / cylinders.length;
  network.cylinders.forEach((cylinder, i) => {
    const marched = march.network.cylinders[i];
    for (const name of ALTERED) cylinder[name] = marched[name];
    Object.assign(cylinder.start, marched.start);
    y.set(march.y.subarray(marched.offset, marched.offset + entries), cylinder.offset);
  });
  decode(network, 20, y);
  const once = () => {
    const taken = seconds(() => {
      for (let i = 0; i < STAGES; i++) {
        decode(network, 20, y);
        ratesOfDecoded(network, y, d);
      }
    });
    if (d.every((rate) => rate === 0)) throw new Error('these are no cylinders');
    return (1e9 * taken) / (STAGES * network.cylinders.length);
  };
  return { name: 'stage of a cylinder', unit: 'ns', ...(await besideOneRoot(once)) };
}
