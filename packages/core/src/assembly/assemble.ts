/** A combination as a network: which volumes, ducts and connections it has, and how often each part stands for others. */

import type { Combination } from '../combination/combination.ts';
import { lambdaOf, sharedLambda } from '../combination/lambdaOf.ts';
import { humidAir } from '../gas/air.ts';
import { buildGasTables } from '../gas/buildGasTables.ts';
import type { GasTables } from '../gas/gasTables.ts';
import { pistonArea } from '../geometry/sliderCrank.ts';
import type { BurnLaw, CylinderSpec } from '../network/cylinder.ts';
import type { NetworkSpec } from '../network/network.ts';
import type { NodeRef } from '../network/part.ts';
import type { Valve } from '../network/valve.ts';
import { putExhaust } from './exhaustParts.ts';
import { AIR_GAMMA, heldAir, meteredAir } from './heldAir.ts';
import { intakeCharge } from './intakeCharge.ts';
import { putIntake } from './intakeParts.ts';
import { DEFAULT_MESH, type Mesh } from './mesh.ts';
import { hasPipes } from './meteringParts.ts';
import { newPlan, put } from './networkPlan.ts';
import { portValve } from './portValve.ts';
import { type Fidelity, marchingOf } from './symmetry.ts';

/** Temperature of what may flow back in at the outlet in a first cycle [K]; forgotten after it. */
const FIRST_OUTLET_GAS = 700;

/** The network of a combination with the roles of its parts. */
export interface EngineNetwork {
  readonly spec: Required<NetworkSpec>;
  readonly fidelity: Fidelity;
  /** Index of the end at each marching cylinder's intake and exhaust valve. */
  readonly intakeEnds: readonly number[];
  readonly exhaustEnds: readonly number[];
  /** What flows back in at the outlets: the reservoir it comes from, the share of it that is exhaust [-], and the air around [K]. */
  readonly outlet: { readonly reservoir: number; readonly returned: number; readonly air: number };
  readonly plenums: readonly number[];
  /** Ducts of the intake, which begin with fresh gas. */
  readonly intakeDucts: readonly number[];
  /** Cells of ducts, behind the throttles, where a gauge of manifold pressure sits; none where it sits in the plenums. */
  readonly gauges: readonly { readonly duct: number; readonly cell: number }[];
  readonly intakeValve: Valve;
  readonly exhaustValve: Valve;
}

const OUTSIDE = 1;

/**
 * @param tables - gas of the combination's fuel, mixture and humidity
 * @param burn - law of the first burn; the planner of the march replaces it
 */
export function assembleNetwork(
  combination: Combination,
  tables: GasTables,
  fidelity: Fidelity,
  burn: BurnLaw,
  mesh: Mesh = DEFAULT_MESH,
): EngineNetwork {
  const { induction, exhaustSystem, weather } = combination;
  const marching = marchingOf(combination, fidelity);
  const { weight } = marching;
  const plenumGroups = induction.plenums.filter((g) =>
    g.cylinders.some((c) => marching.cylinders.includes(c)),
  );
  const charge = intakeCharge(combination, tables);
  const intakeValve = portValve(combination, 'intake');
  const exhaustValve = portValve(combination, 'exhaust');
  const plan = newPlan();
  // An airbox stands in front of the fuel, a plenum behind it or with it.
  const softer = induction.stacks === undefined ? 1 : heldAir({ combination, charge }).volume;
  const plenums = plenumGroups.map((g, i) => ({
    cylinders: g.cylinders,
    volume: put(plan.volumes, { name: `plenum ${i + 1}`, size: g.volume * softer, tables: charge.tables }),
  }));
  const cylinders = marching.cylinders.map((number) => ({
    ...cylinderSpec(combination, number, burn),
    firingAngle: turnFrom(marching.cylinders[0], number, combination.block.firingAngles),
    ...ownCharge(combination, number),
    spray: charge.spray,
    weight,
  }));
  const intake = putIntake(plan, { combination, marching, mesh, charge, valve: intakeValve, plenums });
  const outside: NodeRef = { kind: 'reservoir', index: OUTSIDE };
  const exhaustEnds = putExhaust(plan, { combination, marching, mesh, valve: exhaustValve, outside });
  const air = humidAir(weather.pressure, weather.vapourPressure);
  return {
    spec: {
      tables,
      reservoirs: [
        { p: weather.pressure, T: weather.temperature, b: 0, R: air.R, gamma: AIR_GAMMA, supplies: true },
        { p: weather.pressure, T: FIRST_OUTLET_GAS, b: 1 },
        ...(hasPipes(induction) ? [meteredAir(charge, weather.pressure)] : []),
      ],
      ...plan,
      cylinders,
    },
    fidelity,
    intakeEnds: intake.valveEnds,
    exhaustEnds,
    outlet: { reservoir: OUTSIDE, returned: exhaustSystem.returned, air: weather.temperature },
    plenums: plenums.map(({ volume }) => volume),
    intakeDucts: intake.ducts,
    gauges: intake.gauges,
    intakeValve,
    exhaustValve,
  };
}

/**
 * Crank angle from the firing of one cylinder to that of another [deg]. Cycles are counted from the first that marches, whatever its number:
 * a cycle that is tried in shorter steps then holds a whole change of its gas, of which it else could hold half.
 */
function turnFrom(first: number, number: number, firingAngles: readonly number[]): number {
  const turn = firingAngles[number - 1] - firingAngles[first - 1];
  return turn < 0 ? turn + 720 : turn;
}

function cylinderSpec(
  combination: Combination,
  number: number,
  burn: BurnLaw,
): Omit<CylinderSpec, 'firingAngle'> {
  const { block, chamber, walls } = combination;
  const boreArea = pistonArea(block);
  return {
    name: `cylinder ${number}`,
    crank: {
      bore: block.bore,
      stroke: block.stroke,
      rodLength: block.rodLength,
      clearanceVolume: chamber.clearances?.[number - 1] ?? chamber.clearanceVolume,
    },
    walls: {
      model: walls.model,
      multiplier: walls.multiplier,
      head: walls.head,
      piston: walls.piston,
      liner: walls.liner,
      headRatio: HEAD_SURFACE,
      clearanceWall: CLEARANCE_WALL * boreArea,
    },
    burn,
  };
}

/** The gas of a cylinder's charge, where its mixture is not that of all. */
function ownCharge(combination: Combination, number: number): Pick<CylinderSpec, 'charge'> {
  const { fuel, weather } = combination;
  const lambda = lambdaOf(combination, number);
  if (lambda === sharedLambda(combination)) return {};
  const { pressure, vapourPressure } = weather;
  return { charge: buildGasTables({ fuel, lambda, pressure, vapourPressure }) };
}

/** Surface of roof and valves over bore area [-]; piston crown counts as one more (Heywood, 1988, section 12.6: about 2.2 together; from memory). */
const HEAD_SURFACE = 1.2;
/** Uncovered cylinder wall at top centre over bore area [-]: gasket, deck and top land. */
const CLEARANCE_WALL = 0.1;
