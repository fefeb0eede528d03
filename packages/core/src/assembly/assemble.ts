/** A combination as a network: which volumes, ducts and connections it has, and how often each part stands for others. */

import type { Combination } from '../combination/combination.ts';
import { humidAir } from '../gas/air.ts';
import type { GasTables } from '../gas/gasTables.ts';
import { frozenCv, frozenH } from '../gas/lookup.ts';
import { seriesArea } from '../geometry/flowSheet.ts';
import type { Profile } from '../geometry/tractProfile.ts';
import { CAST_FANNING, TUBE_FANNING } from '../geometry/tractProfile.ts';
import type { BurnLaw, CylinderSpec } from '../network/cylinder.ts';
import type { DuctSpec } from '../network/duct.ts';
import type { NetworkSpec } from '../network/network.ts';
import type { EndSpec } from '../network/openEnd.ts';
import type { OrificeSpec } from '../network/orifice.ts';
import type { Valve } from '../network/valve.ts';
import { STANDARD_WEATHER } from '../reading/defaults/running.ts';
import { portValve } from './portValve.ts';
import { representatives } from './symmetry.ts';
import { collectorTract, exhaustTract, intakeTract } from './tracts.ts';

/** How finely ducts are cut. */
export interface Mesh {
  /** Longest cell in runner with port, and in primary, collector [m]; 0 for a single cell. */
  readonly intakeCell: number;
  readonly exhaustCell: number;
  /** Fewest cells of a runner with port or a primary with port, half of it of a collector [-]; absent: 1. */
  readonly fewest?: number;
}

/**
 * Doubling the cells moves torque by less than 0.7 %; see the refinement tests. Hot gas is faster: its cells are longer. What a
 * short tract does hangs on its own length, so that it needs as many cells as a long one.
 */
export const DEFAULT_MESH: Mesh = { intakeCell: 0.025, exhaustCell: 0.05, fewest: 12 };

/** Temperature of what may flow back in at the outlet in a first cycle [K]; forgotten after it. */
const FIRST_OUTLET_GAS = 700;

/** Shape of a sharp-edged or belled pipe mouth: effective over geometric area [-]. */
const OPEN_MOUTH = 0.95;

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
  const symmetry = representatives(combination);
  const shifts = fidelity === 'all' ? [0] : symmetry.shifts;
  const marching = fidelity === 'all' ? block.firingOrder.map((_, i) => i + 1) : symmetry.marching;
  const plenumGroups = induction.plenums.filter((g) => g.cylinders.some((c) => marching.includes(c)));
  const collectors = exhaustSystem.collectors;
  const collectorGroups =
    collectors === null ? [] : collectors.groups.filter((g) => g.some((c) => marching.includes(c)));
  const intakeValve = portValve(combination, 'intake');
  const exhaustValve = portValve(combination, 'exhaust');

  const volumes: { name: string; size: number }[] = plenumGroups.map((g, i) => ({
    name: `plenum ${i + 1}`,
    size: g.volume,
  }));
  const firstMerge = volumes.length;
  if (collectors !== null) {
    for (let i = 0; i < collectorGroups.length; i++)
      volumes.push({ name: `merge ${i + 1}`, size: collectors.mergeVolume });
  }

  const ducts: DuctSpec[] = [];
  const ends: EndSpec[] = [];
  const intakeEnds: number[] = [];
  const exhaustEnds: number[] = [];
  const copies: { end: number; volume: number; delays: number[] }[] = [];
  const addEnd = (end: EndSpec): number => {
    ends.push(end);
    return ends.length - 1;
  };
  const weight = n / marching.length;
  const cylinders = marching.map((number) => ({ ...cylinderSpec(combination, number, burn), weight }));
  const addCopy = (end: number, volume: number, delay: number): void => {
    if (volume < 0) return;
    const known = copies.find((c) => c.end === end && c.volume === volume);
    if (known === undefined) copies.push({ end, volume, delays: [delay] });
    else known.delays.push(delay);
  };
  /** How many groups like it a marching group stands for: those it becomes by a shift, over those of them that march. */
  const groupWeight = (group: readonly number[], marched: readonly (readonly number[])[]): number => {
    const orbit = new Set(shifts.map((s) => Math.min(...group.map((c) => symmetry.imageOf(c, s)))));
    return orbit.size / marched.filter((g) => orbit.has(Math.min(...g))).length;
  };

  marching.forEach((number, index) => {
    const runner = ducts.length;
    ducts.push({ ...runnerDuct(combination, number, mesh), weight });
    ducts.push({ ...primaryDuct(combination, number, mesh), weight });
    const plenum = plenumGroups.findIndex((g) => g.cylinders.includes(number));
    const mouth = addEnd({
      duct: runner,
      right: false,
      to: { kind: 'volume', index: plenum },
      opening: { area: induction.runner.mouthArea },
      weight,
    });
    const atCylinder = { to: { kind: 'cylinder', index }, weight } as const;
    intakeEnds.push(
      addEnd({ ...atCylinder, duct: runner, right: true, opening: { valve: intakeValve, outward: true } }),
    );
    exhaustEnds.push(
      addEnd({
        ...atCylinder,
        duct: runner + 1,
        right: false,
        opening: { valve: exhaustValve, outward: false },
      }),
    );
    const merge = collectorGroups.findIndex((g) => g.includes(number));
    const tail = addEnd({
      duct: runner + 1,
      right: true,
      to: merge < 0 ? { kind: 'reservoir', index: OUTSIDE } : { kind: 'volume', index: firstMerge + merge },
      opening: { area: merge < 0 ? exhaustSystem.outletArea : OPEN_MOUTH * exhaustSystem.primary.area },
      weight,
    });
    // What the marching cylinder does, its images do later, each into its own plenum and collector where these march.
    for (const shift of shifts.slice(1)) {
      const image = symmetry.imageOf(number, shift);
      addCopy(
        mouth,
        plenumGroups.findIndex((g) => g.cylinders.includes(image)),
        shift,
      );
      const imageMerge = collectorGroups.findIndex((g) => g.includes(image));
      if (merge >= 0) addCopy(tail, imageMerge < 0 ? -1 : firstMerge + imageMerge, shift);
    }
  });

  if (collectors !== null) {
    collectorGroups.forEach((group, i) => {
      const weight = groupWeight(group, collectorGroups);
      const profile = collectorTract(collectors, exhaustSystem.outletArea);
      const duct = ducts.length;
      ducts.push({
        name: `collector ${i + 1}`,
        profile,
        cells: cellCount(profile, mesh.exhaustCell, Math.ceil((mesh.fewest ?? 1) / 2)),
        ...wall(TUBE_FANNING, collectors),
        weight,
      });
      addEnd({
        duct,
        right: false,
        to: { kind: 'volume', index: firstMerge + i },
        opening: { area: OPEN_MOUTH * collectors.area },
        weight,
      });
      addEnd({
        duct,
        right: true,
        to: { kind: 'reservoir', index: OUTSIDE },
        opening: { area: exhaustSystem.outletArea },
        weight,
      });
    });
  }

  const plenumMembers = plenumGroups.map((g) => g.cylinders);
  const orifices: OrificeSpec[] = plenumMembers.map((group, i) => ({
    ...meteringOrifice(combination, tables, group.length / n, i),
    weight: groupWeight(group, plenumMembers),
  }));
  const air = humidAir(weather.pressure, weather.vapourPressure);
  return {
    spec: {
      tables,
      reservoirs: [
        { p: weather.pressure, T: weather.temperature, b: 0, R: air.R, gamma: AIR_GAMMA, supplies: true },
        { p: weather.pressure, T: FIRST_OUTLET_GAS, b: 1 },
      ],
      volumes,
      cylinders,
      ducts,
      ends,
      orifices,
      copies,
    },
    fidelity,
    intakeEnds,
    exhaustEnds,
    outlet: { reservoir: OUTSIDE, returned: exhaustSystem.returned, air: weather.temperature },
    plenums: plenumGroups.map((_, i) => i),
    intakeValve,
    exhaustValve,
  };
}

/** Ratio of specific heats of air at intake temperatures [-] (Heywood, 1988, appendix D). */
const AIR_GAMMA = 1.4;

function cellCount(profile: Profile, cell: number, fewest = 1): number {
  return cell > 0 ? Math.max(fewest, Math.ceil(profile[profile.length - 1].x / cell)) : 1;
}

function cylinderSpec(combination: Combination, number: number, burn: BurnLaw): CylinderSpec {
  const { block, chamber, walls } = combination;
  const boreArea = (Math.PI / 4) * block.bore * block.bore;
  return {
    name: `cylinder ${number}`,
    crank: {
      bore: block.bore,
      stroke: block.stroke,
      rodLength: block.rodLength,
      clearanceVolume: chamber.clearanceVolume,
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
    ...wall(CAST_FANNING, combination.induction.runner),
  };
}

/** A duct's wall. Less friction leaves its heat as it was: the heat goes with friction times its multiplier. */
function wall(
  fanning: number,
  { wallTemperature, wallFriction = 1 }: { readonly wallTemperature: number; readonly wallFriction?: number },
): Pick<DuctSpec, 'fanning' | 'wallTemperature' | 'heatMultiplier'> {
  return { fanning: fanning * wallFriction, wallTemperature, heatMultiplier: 1 / wallFriction };
}

function primaryDuct(combination: Combination, number: number, mesh: Mesh): DuctSpec {
  const { primary } = combination.exhaustSystem;
  const profile = exhaustTract(combination);
  return {
    name: `exhaust ${number}`,
    profile,
    cells: cellCount(profile, mesh.exhaustCell, mesh.fewest),
    ...wall(TUBE_FANNING, primary),
  };
}

/**
 * Carburetor or throttle with the air cleaner in series. What arrives in the plenum is mixture: the heat that
 * evaporates part of the fuel comes from the stream, the rest from walls further on; the plenum's walls warm it.
 */
function meteringOrifice(
  combination: Combination,
  tables: GasTables,
  share: number,
  plenum: number,
): OrificeSpec {
  const { induction, weather } = combination;
  const { meteringArea, airCleanerArea } = induction;
  const area = airCleanerArea === null ? meteringArea : seriesArea(meteringArea, airCleanerArea);
  const T = weather.temperature;
  const h = frozenH(tables, T, 0);
  const cp = frozenCv(tables, T, 0) + tables.freshR;
  return {
    from: { kind: 'reservoir', index: AIR },
    to: { kind: 'volume', index: plenum },
    area: area * share,
    metering: {
      gain: 1 / (1 - tables.fuelFraction),
      enthalpy:
        h +
        cp * chargeRise(induction.heating, induction.runner.wallTemperature, T) -
        induction.evaporation * tables.latentHeat * tables.fuelFraction,
    },
  };
}

/**
 * Rise of the charge from plenum floor and walls [K]: stated for a day of 60 F, and in proportion to how much warmer than
 * the outside air the walls are on another. Walls no warmer than that day give what is stated.
 */
function chargeRise(heating: number, wall: number, outside: number): number {
  const mild = STANDARD_WEATHER.temperature;
  return wall > mild + 1 ? heating * Math.max(0, (wall - outside) / (wall - mild)) : heating;
}
