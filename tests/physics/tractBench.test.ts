/** The assembled tract of every example on a steady flow bench: it must flow what its own sheet says. */
import { describe, expect, it } from 'vitest';
import { assembleNetwork, type EngineNetwork } from '../../packages/core/src/assembly/assemble.ts';
import { portLift } from '../../packages/core/src/assembly/portValve.ts';
import { benchedExhaust, benchedIntake } from '../../packages/core/src/assembly/tracts.ts';
import { INCH_OF_WATER } from '../../packages/core/src/base/constants.ts';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { planBurn } from '../../packages/core/src/cycle/burnPlan.ts';
import { buildGasTables } from '../../packages/core/src/gas/buildGasTables.ts';
import type { GasTables } from '../../packages/core/src/gas/gasTables.ts';
import { isentropicFluxFunction } from '../../packages/core/src/gas/isentropic.ts';
import { flowArea } from '../../packages/core/src/geometry/flowArea.ts';
import { BENCH_AIR, USUAL_DEPRESSION } from '../../packages/core/src/geometry/flowSheet.ts';
import { BENCH_FLOW, pipeFanning, ROUGHNESS } from '../../packages/core/src/geometry/pipeFriction.ts';
import type { DuctSpec } from '../../packages/core/src/network/duct.ts';
import { fillDuct } from '../../packages/core/src/network/duct.ts';
import { END } from '../../packages/core/src/network/ductEnd.ts';
import type { NetworkSpec } from '../../packages/core/src/network/network.ts';
import { createNetwork } from '../../packages/core/src/network/network.ts';
import { SIDE } from '../../packages/core/src/network/side.ts';
import type { Valve } from '../../packages/core/src/network/valve.ts';
import { readFlowSheet } from '../../packages/core/src/reading/sheet/flowSheet.ts';
import { marchTime } from '../../packages/core/test/network/networks.ts';
import {
  EXAMPLES,
  type Example,
  exampleSheet,
  exampleText,
  readGood,
} from '../../packages/core/test/reading/files.ts';
import { engineFile } from './engines.ts';

/** As nearly air as a mixture can be. */
function benchGas(combination: Combination): GasTables {
  return buildGasTables({
    fuel: combination.fuel,
    lambda: 20,
    vapourPressure: 0,
    pressure: BENCH_AIR.pressure,
  });
}

/**
 * Effective area of a duct between still air and a pressure behind, nozzles at its ends [m2]: the area that alone would pass
 * the flow, once it is steady. A duct turned over is flowed from its right end. Two ducts meet in a joint with its loss.
 */
function benchArea(
  combination: Combination,
  tract: DuctSpec | Tract,
  left: number,
  right: number,
  fromLeft: boolean,
  depression = USUAL_DEPRESSION,
): number {
  const p = BENCH_AIR.pressure;
  const T = BENCH_AIR.temperature;
  const low = { p: p - depression, T, b: 0 };
  const high = { p, T, b: 0 };
  const { ducts, joints } = 'ducts' in tract ? tract : { ducts: [tract], joints: [] };
  const network = createNetwork({
    tables: benchGas(combination),
    reservoirs: fromLeft ? [high, low] : [low, high],
    // The bench's walls are as warm as its air, and it has no fuel.
    ducts: ducts.map((duct) => ({ ...duct, heatMultiplier: 0, tables: undefined })),
    joints,
    ends: [
      { duct: 0, at: 'left', to: { kind: 'reservoir', index: 0 }, opening: { area: left } },
      { duct: ducts.length - 1, at: 'right', to: { kind: 'reservoir', index: 1 }, opening: { area: right } },
    ],
  });
  const y = new Float64Array(network.size);
  for (const duct of network.ducts) fillDuct(duct, y, p - depression / 2, T, 0);
  network.degreesPerSecond = 1;
  marchTime(network, y, 0.15, 0.8);
  // As a manometer does, take the mean: limited slopes chatter for ever in a port of a few cells, by some tenths of a percent.
  const passed = [0, 0];
  let last = 0;
  marchTime(network, y, 0.05, 0.8, (now) => {
    network.ends.forEach((end, i) => {
      passed[i] += (now - last) * Math.abs(end.flow[END.mass]);
    });
    last = now;
  });
  const [one, other] = passed.map((mass) => mass / 0.05);
  // Steady: what goes in comes out.
  expect(Math.abs(one / other - 1)).toBeLessThan(3e-4);
  const { [SIDE.R]: R, [SIDE.gamma]: gamma } = network.reservoirs[0].side;
  return (other * Math.sqrt(R * T)) / (p * isentropicFluxFunction(1 - depression / p, gamma));
}

/** Ducts from left to right, with the joints between them. */
type Tract = Required<Pick<NetworkSpec, 'ducts' | 'joints'>>;

/** Mouth to valve of the first cylinder that marches, throttle and all. */
function wholeIntake({ spec, intakeEnds }: EngineNetwork): Tract {
  const { duct } = spec.ends[intakeEnds[0]];
  const joint = spec.joints.find(({ right }) => right === duct);
  if (joint === undefined) return { ducts: [spec.ducts[duct]], joints: [] };
  return {
    ducts: [spec.ducts[joint.left], spec.ducts[duct]],
    joints: [{ ...joint, left: 0, right: 1 }],
  };
}

/** Areas of a valve in both directions, and its net lift [m], at a share of its way from opening to full lift. */
function valveAt(
  combination: Combination,
  side: 'intake' | 'exhaust',
  valve: Valve,
  share: number,
): { readonly lift: number; readonly usual: number; readonly against: number } {
  const { table, maxLift } = portLift(combination[side], side, combination.friction.valvetrain);
  const values = Array.from({ length: table.values.length }, (_, i) => table.values[i]);
  const nearest = values.reduce(
    (best, lift, i) =>
      Math.abs(lift - share * maxLift) < Math.abs(values[best] - share * maxLift) ? i : best,
    0,
  );
  const half = values.length / 2;
  const sample = (nearest + half) % values.length;
  return { lift: values[nearest], usual: valve.area[sample], against: valve.against[sample] };
}

function assembled(combination: Combination): EngineNetwork {
  const { weather, fuel, lambda } = combination;
  const tables = buildGasTables({ fuel, lambda, ...weather });
  const burn = planBurn({ development: 20, main: 30 }, { ca50: 8 }, 1);
  return assembleNetwork(combination, tables, 'representative', burn);
}

/** Share of flow lost with the manifold on at the lift used: of the sheet's own column, or as assumed. */
function manifoldLoss(example: Example, { assumed }: Combination, maxLift: number): number {
  const guessed = assumed.find(({ path }) => path === 'induction.flowLoss');
  if (guessed !== undefined) return Number(guessed.value) / 100;
  const read = readFlowSheet(exampleSheet(example)('flow.csv') ?? '', 'flow.csv');
  const { intake, withManifold } = read.ok ? read.value : { intake: null, withManifold: null };
  const lifts = (withManifold?.lift ?? []).filter((lift) => lift <= maxLift);
  const used = Math.max(...lifts);
  const at = (side: typeof intake): number => side?.flow[side.lift.indexOf(used)] ?? Number.NaN;
  return 1 - at(withManifold) / at(intake);
}

/** A duct of the network cut short to what stood on the bench, its cells as long as they are. */
function benched(duct: DuctSpec, profile: DuctSpec['profile']): DuctSpec {
  const length = (of: DuctSpec['profile']): number => of[of.length - 1].x;
  const cell = length(duct.profile) / duct.cells;
  return { ...duct, profile, cells: Math.max(1, Math.round(length(profile) / cell)) };
}

/** Port and primary of the first cylinder that marches. */
function exhaustDuct({ spec, exhaustEnds }: EngineNetwork): DuctSpec {
  // A sheet is made with cold air, on a straight stub without the bends of the header.
  const duct = spec.ducts[spec.ends[exhaustEnds[0]].duct];
  return { ...duct, fanning: pipeFanning(ROUGHNESS.tube, duct.profile[0].area, BENCH_FLOW) };
}

/** Far end of a profile [m2]. */
const endArea = (profile: DuctSpec['profile']): number => profile[profile.length - 1].area;

describe.each(EXAMPLES)('the tract of %s on a steady bench', (example) => {
  const engine = (): Combination => engineFile(`examples/${example}/engine.yaml`);

  it.each([0.3, 0.6, 1])('passes what the sheet says with the bare head, at %s of full lift', (share) => {
    const combination = engine();
    const { spec, intakeValve } = assembled(combination);
    const { lift, usual } = valveAt(combination, 'intake', intakeValve, share);
    const port = benched(spec.ducts[0], benchedIntake(combination));
    const flows = benchArea(combination, port, port.profile[0].area, usual, true);
    const off = flows / flowArea(combination.intake.flow)(lift) - 1;
    expect(Math.abs(off)).toBeLessThan(1e-3);
  });

  it.each([0.3, 0.6, 1])('passes what the exhaust sheet says, with its pipe, at %s of full lift', (share) => {
    const combination = engine();
    const engineParts = assembled(combination);
    const { lift, usual } = valveAt(combination, 'exhaust', engineParts.exhaustValve, share);
    const port = benched(exhaustDuct(engineParts), benchedExhaust(combination));
    const flows = benchArea(combination, port, usual, endArea(port.profile), true);
    const off = flows / flowArea(combination.exhaust.flow)(lift) - 1;
    expect(Math.abs(off)).toBeLessThan(3e-3);
  });

  it('passes with the manifold on what the sheet says with its loss', () => {
    const combination = engine();
    const parts = assembled(combination);
    const { lift, usual } = valveAt(combination, 'intake', parts.intakeValve, 1);
    const { mouthArea } = combination.induction.runner;
    const flows = benchArea(combination, wholeIntake(parts), mouthArea, usual, true);
    const { lobe, rockerRatio, flow } = combination.intake;
    const beforeLash = rockerRatio * (lobe.kind === 'card' ? lobe.maxLift : Math.max(...lobe.lift));
    const said = (1 - manifoldLoss(example, combination, beforeLash)) * flowArea(flow)(lift);
    expect(Math.abs(flows / said - 1)).toBeLessThan(3e-3);
  });

  it.each([0.3, 1])('passes the wrong way the stated share of it, at %s of full lift', (share) => {
    const combination = engine();
    const engineParts = assembled(combination);
    const { spec, intakeValve, exhaustValve } = engineParts;
    const intake = valveAt(combination, 'intake', intakeValve, share);
    const port = benched(spec.ducts[0], benchedIntake(combination));
    const back = benchArea(combination, port, port.profile[0].area, intake.against, false);
    const { flow } = combination.intake;
    expect(Math.abs(back / (flow.reverseRatio * flowArea(flow)(intake.lift)) - 1)).toBeLessThan(1e-3);
    const exhaust = valveAt(combination, 'exhaust', exhaustValve, share);
    const cut = benched(exhaustDuct(engineParts), benchedExhaust(combination));
    // The single's port grows by two thirds within a cell and a half, which leaves 0.44 %; twice the cells leave less than 0.3.
    const pipe = example === 'scrambler' ? { ...cut, cells: 2 * cut.cells } : cut;
    const into = benchArea(combination, pipe, exhaust.against, endArea(pipe.profile), false);
    const said = combination.exhaust.flow.reverseRatio * flowArea(combination.exhaust.flow)(exhaust.lift);
    expect(Math.abs(into / said - 1)).toBeLessThan(3e-3);
  });

  it('passes it at 10 inH2O as well: what friction takes hardly hangs on the depression', () => {
    const combination = engine();
    const { spec, intakeValve } = assembled(combination);
    const { lift, usual } = valveAt(combination, 'intake', intakeValve, 1);
    const port = benched(spec.ducts[0], benchedIntake(combination));
    const flows = benchArea(combination, port, port.profile[0].area, usual, true, 10 * INCH_OF_WATER);
    expect(Math.abs(flows / flowArea(combination.intake.flow)(lift) - 1)).toBeLessThan(1.5e-3);
  });
});

describe('a manifold that lost less on the bench than usual friction takes', () => {
  it('has smoother walls, and passes what the sheet says', () => {
    const rough = engineFile('examples/club-racer/engine.yaml');
    expect(rough.induction.runner.wallFriction).toBeUndefined();
    const text = exampleText('club-racer').replace(/^induction:$/m, 'induction:\n  flowLoss: 0.5 %');
    const combination = readGood(text, exampleSheet('club-racer'));
    const { runner } = combination.induction;
    expect(runner.wallFriction).toBeLessThan(0.9);
    expect(runner.mouthArea).toBe(runner.entryArea);
    const parts = assembled(combination);
    const { lift, usual } = valveAt(combination, 'intake', parts.intakeValve, 1);
    const flows = benchArea(combination, wholeIntake(parts), runner.mouthArea, usual, true);
    expect(Math.abs(flows / (0.995 * flowArea(combination.intake.flow)(lift)) - 1)).toBeLessThan(1.5e-3);
  });
});
