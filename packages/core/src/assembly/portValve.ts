/** The valve of one side of a cylinder as the network sees it: effective area against crank angle. */

import type { Combination, Port } from '../combination/combination.ts';
import type { Friction } from '../combination/running.ts';
import { flowArea } from '../geometry/flowArea.ts';
import { buildLobe } from '../geometry/lobe.ts';
import { BENCH_FLOW, pipeFanning, ROUGHNESS } from '../geometry/pipeFriction.ts';
import { nozzleBeforeDuct, nozzleBehindDuct } from '../geometry/tractBench.ts';
import { reversed } from '../geometry/tractProfile.ts';
import type { ValveLift } from '../geometry/valveLift.ts';
import { exhaustCentre, intakeCentre, valveLift } from '../geometry/valveLift.ts';
import type { Valve } from '../network/valve.ts';
import { benchedExhaust, benchedIntake } from './tracts.ts';

/** Crank degrees between samples of the area. */
const STEP = 0.5;

/** Lift of the valve over the cycle. */
export function portLift(
  port: Port,
  side: 'intake' | 'exhaust',
  valvetrain: Friction['valvetrain'],
): ValveLift {
  const lobe = buildLobe(
    port.lobe,
    valvetrain === 'roller-lifter' || valvetrain === 'finger-follower' ? 'roller' : 'flat',
  );
  const centre = side === 'intake' ? intakeCentre(port.centreline) : exhaustCentre(port.centreline);
  return valveLift(
    lobe,
    { rockerRatio: port.rockerRatio, lash: port.lash, deflection: port.deflection },
    centre,
    STEP,
  );
}

/**
 * Effective area of all valves of the side together against crank angle: what the sheet says, less what the friction of the
 * ducts took on the bench. The ducts of the network take it again.
 */
export function portValve(combination: Combination, side: 'intake' | 'exhaust'): Valve {
  const port = combination[side];
  const lift = portLift(port, side, combination.friction.valvetrain);
  const { usual, against } = benchedAreas(combination, side);
  const { values } = lift.table;
  const count = values.length;
  const overCycle = (areas: readonly number[]): Float64Array => {
    const areaAt = flowArea({ lift: port.flow.lift, area: areas });
    return Float64Array.from({ length: count + 1 }, (_, i) => {
      const l = values[(i + count / 2) % count];
      return l > 0 ? areaAt(l) : 0;
    });
  };
  return {
    area: overCycle(usual),
    against: overCycle(against),
    step: STEP,
    opens: lift.opens,
    closes: lift.closes,
  };
}

/** The valve of one cylinder, whose port may flow otherwise than the mean of all. */
export function cylinderValve(valve: Valve, { flow }: Port, number: number): Valve {
  const share = flow.shares?.[number - 1];
  if (share === undefined) return valve;
  const { area, against } = valve;
  return { ...valve, area: area.map((a) => a * share), against: against.map((a) => a * share) };
}

/** Areas of the valve at the lifts of the sheet [m2], in the usual direction and against it, beside the ducts it was flowed with. */
function benchedAreas(
  combination: Combination,
  side: 'intake' | 'exhaust',
): { readonly usual: readonly number[]; readonly against: readonly number[] } {
  const { flow, portArea } = combination[side];
  const { area, reverseRatio } = flow;
  const onBench = (surface: keyof typeof ROUGHNESS): number =>
    pipeFanning(ROUGHNESS[surface], portArea, BENCH_FLOW);
  const back = area.map((a) => a * reverseRatio);
  if (side === 'intake') {
    const duct = { profile: benchedIntake(combination), fanning: onBench('cast') };
    const out = { ...duct, profile: reversed(duct.profile) };
    return {
      usual: area.map((a) => nozzleBehindDuct(a, duct)),
      against: back.map((a) => nozzleBeforeDuct(a, out)),
    };
  }
  const duct = { profile: benchedExhaust(combination), fanning: onBench('tube') };
  const into = { ...duct, profile: reversed(duct.profile) };
  return {
    usual: area.map((a) => nozzleBeforeDuct(a, duct)),
    against: back.map((a) => nozzleBehindDuct(a, into)),
  };
}
