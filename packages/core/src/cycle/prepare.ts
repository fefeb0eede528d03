/** A march ready to go: still gas everywhere, before the first cycle. */
import type { EngineNetwork } from '../assembly/assemble.ts';
import { fillCylinder } from '../network/cylinder.ts';
import { fillDuct } from '../network/duct.ts';
import { createNetwork } from '../network/network.ts';
import { SIDE } from '../network/side.ts';
import { fillVolume } from '../network/volume.ts';
import type { BurnPlanner } from './calendar.ts';
import type { March, MarchOptions } from './march.ts';
import { createMarch, MARCH_DEFAULTS } from './march.ts';

/** Exhaust gas to start from [K]; forgotten after a few cycles. */
const WARM_EXHAUST = 900;

export function prepareMarch(
  engine: EngineNetwork,
  plan: BurnPlanner,
  options: MarchOptions = MARCH_DEFAULTS,
): March {
  const network = createNetwork(engine.spec);
  const march = createMarch(network, options, plan);
  const { y } = march;
  const { side: air } = network.reservoirs[0];
  const p = air[SIDE.p];
  const T = air[SIDE.T];
  network.volumes.forEach((v, i) => {
    const intake = engine.plenums.includes(i);
    fillVolume(v, y, p, intake ? T : WARM_EXHAUST, intake ? 0 : 1);
  });
  const intakeDucts = new Set(engine.intakeDucts);
  network.ducts.forEach((d, i) => {
    const intake = intakeDucts.has(i);
    fillDuct(d, y, p, intake ? T : WARM_EXHAUST, intake ? 0 : 1);
  });
  for (const c of network.cylinders) fillCylinder(c, y, 0, p, 1.3 * T, 0.2);
  return march;
}
