/** A throttle in each runner: still air in front, no plenum, and an airbox where there is one. */
import { describe, expect, it } from 'vitest';
import { assembleNetwork } from '../../src/assembly/assemble.ts';
import { heldAir, meteredAir } from '../../src/assembly/heldAir.ts';
import { intakeCharge } from '../../src/assembly/intakeCharge.ts';
import { throttleLoss } from '../../src/assembly/intakeParts.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { problemLine } from '../../src/combination/problem.ts';
import { FIRST_ANGLES, FIRST_TIMING, planBurn } from '../../src/cycle/burnPlan.ts';
import type { MarchedPoint } from '../../src/forecast/curve.ts';
import { buildGasTables } from '../../src/gas/buildGasTables.ts';
import { createReservoir } from '../../src/network/reservoir.ts';
import { SIDE } from '../../src/network/side.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { wholeForecast } from '../forecast/wholeForecast.ts';
import { siteOf } from '../network/networks.ts';

const MESH = { intakeCell: 0.04, exhaustCell: 0.1, fewest: 4 };

const text = (cylinders: number, induction: string): string =>
  [
    `engine: { bore: 88 mm, stroke: 66 mm, cylinders: ${cylinders}, ratedSpeed: 7950 rpm }`,
    'chamber: { compression: 9.5 }',
    'heads: { valvesPerCylinder: 4, intake: { valve: 32.56 mm }, exhaust: { valve: 28.16 mm } }',
    'cam: { intake: { at050: 207 deg } }',
    `induction: ${induction}`,
    'exhaust: { primary: { length: 34 in }, collector: none, muffler: open }',
    'burn: { ca50: 9 deg }',
    '',
  ].join('\n');

function engineOf(cylinders: number, induction: string): Combination {
  const read = readCombination(text(cylinders, induction), { file: 'e.yaml' });
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  return read.value;
}

const pointOf = (engine: Combination, rpm: number): MarchedPoint =>
  wholeForecast(engine, { rpm: [rpm], mesh: MESH }).points[0];

const RUNNER = 'length: 240 mm, entryArea: 14 cm2, exitArea: 12 cm2';

describe('throttles along the runners', () => {
  it('breathe still air: as from a plenum without end behind a throttle that takes nothing', () => {
    // The more of the fuel is vapour, the heavier the gas that stands for air in the trumpet, and the more the two differ.
    const same = 'heating: 0 K, vapour: 50 %, flowLoss: 8 %, throttle: { diameter: 200 mm }';
    const open = engineOf(
      1,
      `{ manifold: individual-throttles, runner: { ${RUNNER}, throttleAt: 100 mm }, ${same} }`,
    );
    const plenum = engineOf(
      1,
      `{ manifold: individual-runner, plenum: 60 l, runner: { ${RUNNER} }, ${same} }`,
    );
    expect(open.induction.plenums).toEqual([]);
    const [a, b] = [pointOf(open, 5500), pointOf(plenum, 5500)];
    // What waves see of the mouth differs: in the open it is a little less.
    expect(Math.abs(a.torqueNm / b.torqueNm - 1)).toBeLessThan(0.006);
    // What is blown back warm into the open is gone; a plenum keeps its warmth.
    expect(b.chargeTemperatureK - a.chargeTemperatureK).toBeGreaterThan(0);
    expect(b.chargeTemperatureK - a.chargeTemperatureK).toBeLessThan(2);
    expect(Math.abs(a.massClosure)).toBeLessThan(2e-3);
    expect(Math.abs(a.energyClosure)).toBeLessThan(2e-3);
  });

  it('lose less the larger the throttle, and gain by a bell', () => {
    const at = (diameter: number, mouth: string): number =>
      pointOf(
        engineOf(
          1,
          `{ manifold: individual-throttles, throttle: { diameter: ${diameter} mm }, runner: { ${RUNNER}, throttleAt: 100 mm, mouth: ${mouth} } }`,
        ),
        7500,
      ).volumetricEfficiency;
    const [small, large, plain] = [at(26, 'bell'), at(42, 'bell'), at(42, 'plain')];
    expect(large).toBeGreaterThan(small * 1.02);
    expect(large).toBeGreaterThan(plain);
  });

  it('take from the stream what the rating says beyond the speed in the bore', () => {
    const engine = engineOf(
      4,
      '{ manifold: individual-throttles, throttle: { diameter: 40 mm }, runner: { length: 300 mm, entryArea: 14 cm2, exitArea: 14 cm2 } }',
    );
    const { stacks } = engine.induction;
    if (stacks === undefined) throw new Error('the engine has no throttles of its own');
    // A bore of 40 mm that passes 0.85 of its area: 1 / 0.85^2 - 1 dynamic pressures of the bore, by the runner's area over the bore's.
    const bore = (Math.PI / 4) * 0.04 ** 2;
    expect(stacks.bore).toBeCloseTo(bore, 12);
    expect(throttleLoss(engine, stacks, 14e-4)).toBeCloseTo((1 / 0.85 ** 2 - 1) * (14e-4 / bore) ** 2, 9);
  });

  it('stand in a network without plenum, one joint a cylinder, or behind an airbox with its pipe', () => {
    const specOf = (induction: string) => {
      const engine = engineOf(4, induction);
      const { fuel, lambda, weather } = engine;
      const tables = buildGasTables({
        fuel,
        lambda,
        vapourPressure: weather.vapourPressure,
        pressure: weather.pressure,
      });
      return assembleNetwork(engine, tables, 'all', planBurn(FIRST_ANGLES, FIRST_TIMING, 0.97), MESH);
    };
    const open = specOf(`{ manifold: individual-throttles, runner: { ${RUNNER} } }`);
    expect([open.spec.volumes.length, open.spec.joints.length, open.spec.orifices.length]).toEqual([0, 4, 0]);
    expect(open.gauges).toHaveLength(4);
    const boxed = specOf(
      `{ manifold: individual-throttles, runner: { ${RUNNER} }, airbox: { volume: 8 l, inlet: { inside: 80 mm, length: 300 mm } }, airCleaner: { flow: 400 cfm } }`,
    );
    // Built as much smaller as its gas, which holds fuel here, is softer than air.
    expect(boxed.spec.volumes[0].size / 8e-3).toBeGreaterThan(0.975);
    expect(boxed.spec.volumes[0].size / 8e-3).toBeLessThan(0.995);
    expect(boxed.spec.orifices).toHaveLength(0);
    expect(boxed.spec.ducts.filter(({ name }) => name === 'airbox inlet')).toHaveLength(1);
    const holed = specOf(
      `{ manifold: individual-throttles, runner: { ${RUNNER} }, airbox: { volume: 8 l, inlet: { inside: 80 mm } } }`,
    );
    expect(holed.spec.orifices[0].area).toBeCloseTo((Math.PI / 4) * 0.08 ** 2, 12);
  });

  it('have pipes of air in front of them: waves take the time they take in air, and meet the same resistance', () => {
    const partsOf = (more: string) => {
      const combination = engineOf(4, `{ manifold: individual-throttles${more} }`);
      const { fuel, lambda, weather } = combination;
      const { pressure, vapourPressure } = weather;
      const charge = intakeCharge(combination, buildGasTables({ fuel, lambda, vapourPressure, pressure }));
      const { side } = createReservoir(meteredAir(charge, pressure), siteOf(charge.tables));
      return { built: heldAir({ combination, charge }), side, temperature: weather.temperature };
    };
    const { built, side, temperature } = partsOf('');
    const sound = Math.sqrt(side[SIDE.gamma] * side[SIDE.R] * side[SIDE.T]);
    // Air of 60 F.
    const still = Math.sqrt(1.4 * 287.05 * temperature);
    expect(Math.abs((built.length / sound) * still - 1)).toBeLessThan(5e-4);
    const resistance = side[SIDE.rho] * sound;
    expect(Math.abs((built.area / resistance) * ((1.4 * 101_325) / still) - 1)).toBeLessThan(1e-3);
    expect(Math.abs((built.volume / side[SIDE.gamma]) * 1.4 - 1)).toBeLessThan(1e-6);
    expect(built.length).toBeLessThan(0.985);
    // Fuel injected into the cylinder is nowhere in the intake.
    expect(partsOf(', injection: direct').built.length).toBeCloseTo(1, 2);
  });

  it('need no plenum, and say so; a wrong place or number is a problem', () => {
    const { assumed } = engineOf(4, '{ manifold: individual-throttles }');
    const paths = assumed.map(({ path }) => path);
    expect(paths).toEqual(expect.arrayContaining(['induction.runner.throttleAt', 'induction.runner.mouth']));
    expect(paths).not.toContain('induction.plenum');
    expect(paths).not.toContain('induction.flowLoss');
    expect(assumed.find(({ path }) => path === 'induction.runner.throttleAt')?.spread).toBeGreaterThan(0);
    const unused = (induction: string) =>
      engineOf(4, induction)
        .warnings.filter(({ code }) => code === 'field-unused')
        .map(({ path }) => path);
    expect(unused('{ manifold: individual-throttles, plenum: 1 l }')).toEqual(['induction.plenum']);
    expect(unused('{ airbox: { volume: 8 l }, runner: { mouth: bell } }')).toEqual([
      'induction.airbox',
      'induction.runner.mouth',
    ]);
    const shared = (cylinders: number, induction: string) =>
      engineOf(cylinders, `{ manifold: individual-throttles, airCleaner: { flow: 900 cfm }${induction} }`)
        .warnings.filter(({ code }) => code === 'cleaner-shared')
        .map(({ message }) => message);
    expect(shared(4, '')).toEqual([expect.stringContaining('one filter on each of 4 trumpets')]);
    expect(shared(4, ', airbox: { volume: 8 l }')).toEqual([]);
    expect(shared(1, '')).toEqual([]);
    const lines = (induction: string) => {
      const read = readCombination(text(4, induction), { file: 'e.yaml' });
      return read.ok ? [] : read.problems.map(problemLine);
    };
    expect(lines(`{ manifold: individual-throttles, runner: { ${RUNNER}, throttleAt: 250 mm } }`)).toEqual([
      expect.stringContaining('induction.runner.throttleAt lies behind the end of the runner'),
    ]);
    expect(lines('{ manifold: individual-throttles, throttle: { count: 1 } }')).toEqual([
      expect.stringContaining('is 1: with individual-throttles each of the 4 cylinders has its own'),
    ]);
    expect(lines('{ manifold: individual-throttle }')).toEqual([
      expect.stringContaining('(did you mean individual-throttles?)'),
    ]);
    expect(lines('{ airbox: { volum: 8 l } }')).toEqual([
      expect.stringContaining('induction.airbox.volum is not a field of this file (did you mean volume?)'),
    ]);
  });
});
