/** A combination as a network: which volumes, ducts and connections it has, and how often each part stands for others. */

import type { Combination } from '../combination/combination.ts';
import { humidAir } from '../gas/air.ts';
import type { GasTables } from '../gas/gasTables.ts';
import { seriesArea } from '../geometry/flowSheet.ts';
import { CAST_FANNING } from '../geometry/tractProfile.ts';
import type { BurnLaw, CylinderSpec } from '../network/cylinder.ts';
import type { DuctSpec } from '../network/duct.ts';
import type { NetworkSpec } from '../network/network.ts';
import type { OrificeSpec } from '../network/orifice.ts';
import type { NodeRef } from '../network/part.ts';
import type { Valve } from '../network/valve.ts';
import { putExhaust } from './exhaustParts.ts';
import { intakeCharge } from './intakeCharge.ts';
import { cellCount, DEFAULT_MESH, INTAKE_FLOW, type Mesh, wall } from './mesh.ts';
import { newPlan, put, putCopy, volumeAt } from './networkPlan.ts';
import { portValve } from './portValve.ts';
import { groupWeight, marchingOf } from './symmetry.ts';
import { intakeTract } from './tracts.ts';

/** Temperature of what may flow back in at the outlet in a first cycle [K]; forgotten after it. */
const FIRST_OUTLET_GAS = 700;

/** The network of a combination with the roles of its parts. */
export interface EngineNetwork {
  readonly spec: Required<NetworkSpec>;
  readonly fidelity: 'representative' | 'all';
  /** Index of the end at each marching cylinder's intake and exhaust valve. */
  readonly intakeEnds: readonly number[];
  readonly exhaustEnds: readonly number[];
  /** What flows back in at the outlets: the reservoir it comes from, the share of it that is exhaust [-], and the air around [K]. */
  readonly outlet: { readonly reservoir: number; readonly returned: number; readonly air: number };
  readonly plenums: readonly number[];
  readonly intakeValve: Valve;
  readonly exhaustValve: Valve;
}

const AIR = 0;
const OUTSIDE = 1;

/**
 * @param tables - gas of the combination's fuel, mixture and humidity
 * @param burn - law of the first burn; the planner of the march replaces it
 */
export function assembleNetwork(
  combination: Combination,
  tables: GasTables,
  fidelity: 'representative' | 'all',
  burn: BurnLaw,
  mesh: Mesh = DEFAULT_MESH,
): EngineNetwork {
  const { block, induction, exhaustSystem, weather } = combination;
  const n = block.cylinders;
  const marching = marchingOf(combination, fidelity);
  const { weight } = marching;
  const plenumGroups = induction.plenums.filter((g) =>
    g.cylinders.some((c) => marching.cylinders.includes(c)),
  );
  const charge = intakeCharge(combination, tables);
  const intakeValve = portValve(combination, 'intake');
  const exhaustValve = portValve(combination, 'exhaust');
  const plan = newPlan();
  const plenums = plenumGroups.map((g, i) =>
    put(plan.volumes, { name: `plenum ${i + 1}`, size: g.volume, tables: charge.tables }),
  );
  const cylinders = marching.cylinders.map((number) => ({
    ...cylinderSpec(combination, number, burn),
    spray: charge.spray,
    weight,
  }));
  const intakeEnds = marching.cylinders.map((number, index) => {
    const duct = put(plan.ducts, {
      ...runnerDuct(combination, number, mesh),
      tables: charge.tables,
      weight,
    });
    const plenum = plenumGroups.findIndex((g) => g.cylinders.includes(number));
    const opening = { area: induction.runner.mouthArea };
    const mouth = put(plan.ends, { duct, right: false, to: volumeAt(plenums[plenum]), opening, weight });
    // What the marching cylinder does, its images do later, each into its own plenum where that marches.
    for (const shift of marching.shifts.slice(1)) {
      const image = marching.imageOf(number, shift);
      const at = plenumGroups.findIndex((g) => g.cylinders.includes(image));
      if (at >= 0) putCopy(plan, mouth, plenums[at], shift);
    }
    const valve = { valve: intakeValve, outward: true };
    return put(plan.ends, {
      duct,
      right: true,
      to: { kind: 'cylinder', index },
      opening: valve,
      fuelling: charge.fuelling,
      weight,
    });
  });
  const outside: NodeRef = { kind: 'reservoir', index: OUTSIDE };
  const exhaustEnds = putExhaust(plan, { combination, marching, mesh, valve: exhaustValve, outside });
  const plenumMembers = plenumGroups.map((g) => g.cylinders);
  plenumMembers.forEach((group, i) => {
    const orifice = meteringOrifice(combination, charge.metering, group.length / n, plenums[i]);
    put(plan.orifices, { ...orifice, weight: groupWeight(marching, group, plenumMembers) });
  });
  const air = humidAir(weather.pressure, weather.vapourPressure);
  return {
    spec: {
      tables,
      reservoirs: [
        { p: weather.pressure, T: weather.temperature, b: 0, R: air.R, gamma: AIR_GAMMA, supplies: true },
        { p: weather.pressure, T: FIRST_OUTLET_GAS, b: 1 },
      ],
      ...plan,
      cylinders,
    },
    fidelity,
    intakeEnds,
    exhaustEnds,
    outlet: { reservoir: OUTSIDE, returned: exhaustSystem.returned, air: weather.temperature },
    plenums,
    intakeValve,
    exhaustValve,
  };
}

/** Ratio of specific heats of air at intake temperatures [-] (Heywood, 1988, appendix D). */
const AIR_GAMMA = 1.4;

function cylinderSpec(combination: Combination, number: number, burn: BurnLaw): CylinderSpec {
  const { block, chamber, walls } = combination;
  const boreArea = (Math.PI / 4) * block.bore * block.bore;
  return {
    name: `cylinder ${number}`,
    crank: {
      bore: block.bore,
      stroke: block.stroke,
      rodLength: block.rodLength,
      clearanceVolume: chamber.clearances?.[number - 1] ?? chamber.clearanceVolume,
    },
    firingAngle: block.firingAngles[number - 1],
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

/** Surface of roof and valves over bore area [-]; piston crown counts as one more (Heywood, 1988, section 12.6: about 2.2 together; from memory). */
const HEAD_SURFACE = 1.2;
/** Uncovered cylinder wall at top centre over bore area [-]: gasket, deck and top land. */
const CLEARANCE_WALL = 0.1;

function runnerDuct(combination: Combination, number: number, mesh: Mesh): DuctSpec {
  const profile = intakeTract(combination);
  return {
    name: `intake ${number}`,
    profile,
    cells: cellCount(profile, mesh.intakeCell, mesh.fewest),
    ...wall(CAST_FANNING, INTAKE_FLOW, combination.intake.portArea, combination.induction.runner),
  };
}

/** Carburetor or throttle with the air cleaner in series. */
function meteringOrifice(
  { induction }: Combination,
  metering: OrificeSpec['metering'],
  share: number,
  plenum: number,
): OrificeSpec {
  const { meteringArea, airCleanerArea } = induction;
  const area = airCleanerArea === null ? meteringArea : seriesArea(meteringArea, airCleanerArea);
  return {
    from: { kind: 'reservoir', index: AIR },
    to: { kind: 'volume', index: plenum },
    area: area * share,
    ...(metering === undefined ? {} : { metering }),
  };
}
