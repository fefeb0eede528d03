/** A march ready to go: still gas in all pipes and volumes, and cylinders under way, before the first cycle. */
import type { EngineNetwork } from '../assembly/assemble.ts';
import { cylinderVolume } from '../geometry/sliderCrank.ts';
import { type Cylinder, fillCylinder, localAngle } from '../network/cylinder.ts';
import { fillDuct } from '../network/duct.ts';
import { createNetwork } from '../network/network.ts';
import { SIDE } from '../network/side.ts';
import { fillVolume } from '../network/volume.ts';
import type { BurnPlanner, Calendar } from './calendar.ts';
import type { March, MarchOptions } from './march.ts';
import { createMarch, MARCH_DEFAULTS } from './march.ts';

/** Exhaust gas to start from [K]; forgotten after a few cycles. */
const WARM_EXHAUST = 900;

/**
 * Pressure drop that gas starts with from outside into the intake and from the exhaust to outside, and what one volume has more than
 * the one before [-]. What flows through a throat goes with the root of the drop: from no drop at all it would be what rounding
 * makes of it, and the first cycles hand that on.
 */
const DROP = 0.01;
const STAGGER = 0.002;

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
    const drop = DROP + i * STAGGER;
    fillVolume(v, y, intake ? p * (1 - drop) : p * (1 + drop), intake ? T : WARM_EXHAUST, intake ? 0 : 1);
  });
  const intakeDucts = new Set(engine.intakeDucts);
  network.ducts.forEach((d, i) => {
    const intake = intakeDucts.has(i);
    fillDuct(d, y, intake ? p * (1 - DROP) : p * (1 + DROP), intake ? T : WARM_EXHAUST, intake ? 0 : 1);
  });
  network.cylinders.forEach((cylinder, i) => {
    fillUnderWay(cylinder, march.calendars[i], y, { p, T });
  });
  return march;
}

/** Burned gas when the exhaust valve opens [K], and fresh gas, a little warmed and diluted, over the air outside [-]. */
const OPENING = 1500;
const WARMED = 1.15;
const RESIDUAL = 0.05;
/** Exponents by which pressure falls and rises over volume while both valves are shut [-]. */
const EXPANDING = 1.27;
const COMPRESSING = 1.35;

/**
 * A cylinder where crank angle 0 finds it in its cycle, about: with the air that it holds at rest before the burn, with the hot gas
 * of that after it. A cylinder that began with still gas would blow little down in its first cycle, and what cold gas it pushes into
 * a muffler takes many cycles to leave.
 */
function fillUnderWay(
  cylinder: Cylinder,
  { exhaustOpens, intakeCloses }: Calendar,
  y: Float64Array,
  air: { readonly p: number; readonly T: number },
): void {
  const angle = localAngle(cylinder, 0);
  const fresh = WARMED * air.T;
  const squeezedFrom = (degrees: number) =>
    cylinderVolume(cylinder.crank, (degrees * Math.PI) / 180) /
    cylinderVolume(cylinder.crank, (angle * Math.PI) / 180);
  if (angle >= exhaustOpens) fillCylinder(cylinder, y, 0, air.p, WARM_EXHAUST, 1);
  else if (angle >= cylinder.burn.start) {
    const squeezed = squeezedFrom(exhaustOpens);
    const p = (air.p * OPENING) / fresh;
    fillCylinder(cylinder, y, 0, p * squeezed ** EXPANDING, OPENING * squeezed ** (EXPANDING - 1), 1);
  } else if (angle < intakeCloses) fillCylinder(cylinder, y, 0, air.p, fresh, RESIDUAL);
  else {
    const squeezed = squeezedFrom(intakeCloses);
    const T = fresh * squeezed ** (COMPRESSING - 1);
    fillCylinder(cylinder, y, 0, air.p * squeezed ** COMPRESSING, T, RESIDUAL);
  }
}
