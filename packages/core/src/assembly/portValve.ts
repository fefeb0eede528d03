/** The valve of one side of a cylinder as the network sees it: effective area against crank angle. */

import type { Friction, Port } from '../combination/combination.ts';
import { flowArea } from '../geometry/flowArea.ts';
import { buildLobe } from '../geometry/lobe.ts';
import type { ValveLift } from '../geometry/valveLift.ts';
import { exhaustCentre, intakeCentre, valveLift } from '../geometry/valveLift.ts';
import type { Valve } from '../network/valve.ts';

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

/** Effective area of all valves of the side together against crank angle. */
export function portValve(port: Port, side: 'intake' | 'exhaust', valvetrain: Friction['valvetrain']): Valve {
  const lift = portLift(port, side, valvetrain);
  const areaAt = flowArea(port.flow);
  const { values } = lift.table;
  const count = values.length;
  const area = Float64Array.from({ length: count + 1 }, (_, i) => {
    const l = values[(i + count / 2) % count];
    return l > 0 ? areaAt(l) : 0;
  });
  return { area, step: STEP, reverseRatio: port.flow.reverseRatio, opens: lift.opens, closes: lift.closes };
}
