/** Vessels filled and emptied through an orifice, for checks against closed forms of ideal gases. */
import { createNetwork, rates } from '../../src/network/network.ts';
import { orificeFlow } from '../../src/network/orifice.ts';
import { SIDE, stillGas } from '../../src/network/side.ts';
import { createVolume, decodeVolume, fillVolume } from '../../src/network/volume.ts';
import { createStepper, type Rhs, RK4, step } from '../../src/numerics/rungeKutta.ts';
import { idealGas } from './idealGas.ts';
import { siteOf } from './networks.ts';

/** [J/(kg K)] */
export const AIR_R = 287.055;

/** Vessel of 0.5 l from 5 bar and 1200 K through 5 cm2 into air of 1.013 bar or `into` [Pa], gamma 1.3, at time t [s]. */
export function blowDown(t: number, into: number = 1.013e5): { p: number; T: number; m: number } {
  const gas = idealGas({ R: AIR_R, freshGamma: 1.3, burnedGamma: 1.3, heat: 0 });
  const vessel = createVolume({ name: 'vessel', size: 5e-4 }, siteOf(gas));
  const outside = stillGas(gas, into, 300, 0);
  const y = new Float64Array(3);
  fillVolume(vessel, y, 5e5, 1200, 0);
  const first = y[0];
  const stepper = createStepper(RK4, 3);
  const steps = 200;
  for (let i = 0; i < steps; i++) {
    step(
      stepper,
      (_t, state, d) => {
        decodeVolume(vessel, state);
        const m = orificeFlow(vessel.side, outside, 5e-4);
        d[0] = -m;
        d[1] = -m * vessel.side[SIDE.h];
        d[2] = 0;
      },
      0,
      t / steps,
      y,
    );
  }
  decodeVolume(vessel, y);
  return { p: vessel.side[SIDE.p], T: vessel.side[SIDE.T], m: y[0] / first };
}

/** Vessel of 1 l, gamma 1.4, at p1 and T1 filled from air of p0 and 300 K through 0.1 cm2; marched until t [s]. */
export function fill(
  p0: number,
  p1: number,
  T1: number,
  t: number,
  steps: number,
): { p: number; T: number; mdot: number } {
  const gas = idealGas({ R: AIR_R, freshGamma: 1.4, burnedGamma: 1.4, heat: 0 });
  const network = createNetwork({
    tables: gas,
    reservoirs: [{ p: p0, T: 300, b: 0 }],
    volumes: [{ name: 'vessel', size: 1e-3 }],
    orifices: [{ from: { kind: 'reservoir', index: 0 }, to: { kind: 'volume', index: 0 }, area: 1e-5 }],
  });
  const [vessel] = network.volumes;
  const y = new Float64Array(network.size);
  const d = new Float64Array(network.size);
  fillVolume(vessel, y, p1, T1, 0);
  rates(network, 0, y, d);
  const mdot = d[0];
  const stepper = createStepper(RK4, network.size);
  const rhs: Rhs = ([time], state, out) => rates(network, time, state, out);
  for (let i = 0; i < steps; i++) step(stepper, rhs, 0, t / steps, y);
  decodeVolume(vessel, y);
  return { p: vessel.side[SIDE.p], T: vessel.side[SIDE.T], mdot };
}
