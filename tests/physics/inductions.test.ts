/** Inductions as they are built: what the trade expects of each, forecast. Burns are given, so that nothing but gas exchange differs. */
import { describe, expect, it } from 'vitest';
import { marchingOf } from '../../packages/core/src/assembly/symmetry.ts';
import type { Combination } from '../../packages/core/src/combination/combination.ts';
import { MARCH_DEFAULTS } from '../../packages/core/src/cycle/march.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { pointsOf } from './engines.ts';

/** Cells are not what is tried here. */
const mesh = { intakeCell: 0.05, exhaustCell: 0.12, fewest: 5 };

function engineOf(sections: string, induction: string): Combination {
  const read = readCombination(`${sections}\ninduction: ${induction}\n`, { file: 'e.yaml' });
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return read.value;
}

/** Open pipes behind every valve: nothing of the exhaust is tried here, and one cylinder stands for its likes. */
const EXHAUST = 'exhaust: { collector: none, primary: { length: 22 in } }';

/** An invented eight of six litres for a circle track. */
const eight = (induction: string): Combination =>
  engineOf(
    `engine: { bore: 4.06 in, stroke: 3.52 in, cylinders: 8 }
chamber: { compression: 10.4 }
heads: { valvesPerCylinder: 2 }
cam: { separation: 108 deg, intake: { at050: 237 deg }, exhaust: { at050: 242 deg } }
burn: { ca50: 8 deg }
${EXHAUST}`,
    induction,
  );

const torques = (engine: Combination, rpm: readonly number[]): readonly number[] =>
  pointsOf(engine, rpm, { mesh }).map(({ torqueNm }) => torqueNm);

const at6400 = (induction: string) => pointsOf(eight(induction), [6400], { mesh })[0];

describe('an eight under one carburetor', () => {
  // Common practice, no source.
  it('gains below and loses above with its planes apart, and less so with the divider cut', () => {
    const manifold = (style: string, more = ''): string =>
      `{ carburetor: { rating: 640 cfm }, manifold: ${style}, plenum: 1.7 l, flowLoss: 6 %, manifoldHeat: none, heating: 2 K,
      runner: { length: 5.6 in, entryArea: 2.5 in2, exitArea: 2.3 in2, wallTemperature: 335 K }${more} }`;
    const [open, apart, cut] = [
      manifold('single-plane'),
      manifold('dual-plane'),
      manifold('dual-plane', ', divider: { opening: 3 in2 }'),
    ].map((induction) => torques(eight(induction), [3000, 5200]));
    expect(apart[0] / open[0]).toBeGreaterThan(1.003);
    expect(apart[1] / open[1]).toBeLessThan(0.999);
    expect(cut[0]).toBeLessThan(apart[0]);
    expect(cut[1]).toBeGreaterThan(apart[1]);
  });

  it('with its planes open into each other is marched by a cylinder of each plane, and all cylinders give the same torque within 0.1 %', () => {
    const cut = eight(
      '{ carburetor: { rating: 640 cfm, barrels: 4 }, manifold: dual-plane, divider: { opening: 0.6 in2 } }',
    );
    expect(marchingOf(cut, 'representative').cylinders).toHaveLength(2);
    const torque = (fidelity: 'representative' | 'all'): number =>
      pointsOf(cut, [3600], { mesh, fidelity })[0].torqueNm;
    expect(Math.abs(torque('representative') / torque('all') - 1)).toBeLessThan(1e-3);
  });

  it('loses little to a spacer with holes, and next to nothing to a flat one', () => {
    // At the usual step the step itself is worth a thousandth, at half of it three ten-thousandths.
    const march = { ...MARCH_DEFAULTS, courant: 0.25 * MARCH_DEFAULTS.courant };
    const spaced = (spacer: string): number =>
      pointsOf(
        eight(`{ carburetor: { rating: 640 cfm }, manifold: single-plane, spacer: ${spacer} }`),
        [5200],
        {
          mesh,
          march,
          onlyCompared: true,
        },
      )[0].torqueNm;
    const [none, flat, tall] = [
      'none',
      '{ kind: four-hole, height: 6 mm, loss: 0 }',
      '{ kind: four-hole, height: 2 in, loss: 0 }',
    ].map(spaced);
    expect(Math.abs(flat / none - 1)).toBeLessThan(6e-4);
    expect(Math.abs(tall / none - 1)).toBeGreaterThan(Math.abs(flat / none - 1));
    expect(Math.abs(tall / none - 1)).toBeLessThan(0.02);
  });

  it('has more flow, and more at the top, under two', () => {
    const under = (count: number) =>
      at6400(`{ carburetor: { rating: 450 cfm, count: ${count} }, manifold: single-plane }`);
    const [one, two] = [under(1), under(2)];
    expect(two.airflowKgPerH / one.airflowKgPerH).toBeGreaterThan(1.03);
    expect(two.torqueNm).toBeGreaterThan(one.torqueNm);
    // Four times less for the same flow, and the flow is more.
    expect(two.manifoldVacuumInHg).toBeLessThan(one.manifoldVacuumInHg / 3);
  });
});

describe('an eight behind a throttle', () => {
  const SIZES =
    'throttle: { diameter: 85 mm }, manifold: long-runner, runner: { length: 10 in }, plenum: 5 l';

  it('and a sonic restrictor of 38 mm draws what that passes and no more; a plate of the bore gives nothing back', () => {
    const [free, sonic, plate] = [
      'none',
      '{ kind: sonic, bore: 38 mm }',
      '{ kind: plate, bores: 1, bore: 38 mm }',
    ].map((restrictor) => at6400(`{ ${SIZES}, restrictor: ${restrictor} }`));
    // Sonic flow of dry air through 0.98 of a disc of 38 mm at 29.92 inHg and 60 F.
    const most = (3600 * 0.98 * (Math.PI / 4) * 0.038 ** 2 * 101_325 * 0.684731) / Math.sqrt(287 * 288.71);
    expect(sonic.airflowKgPerH / most).toBeLessThan(1.001);
    expect(sonic.airflowKgPerH / most).toBeGreaterThan(0.982);
    expect(sonic.torqueNm / free.torqueNm).toBeLessThan(0.9);
    expect(plate.torqueNm).toBeLessThan(sonic.torqueNm);
  });

  it('at the front of a pipe feels the pipe, and closes its accounts', () => {
    const [on, behind] = ['none', '{ inside: 85 mm, length: 600 mm }'].map((duct) =>
      at6400(`{ ${SIZES}, inletDuct: ${duct} }`),
    );
    expect(Math.abs(behind.massClosure)).toBeLessThan(1e-3);
    expect(Math.abs(behind.energyClosure)).toBeLessThan(1e-3);
    const moved = Math.abs(behind.torqueNm / on.torqueNm - 1);
    expect(moved).toBeGreaterThan(0.001);
    expect(moved).toBeLessThan(0.25);
  });
});

it('a twin on throttles of its own is evened out by a balance tube', () => {
  const twin = (balance: string): number =>
    torques(
      engineOf(
        `engine: { bore: 76 mm, stroke: 66 mm, cylinders: 2 }
chamber: { compression: 11 }
heads: { valvesPerCylinder: 4 }
cam: { intake: { at050: 238 deg }, exhaust: { at050: 234 deg } }
burn: { ca50: 9 deg }
${EXHAUST}`,
        `{ manifold: individual-throttles, throttle: { diameter: 40 mm }, runner: { length: 210 mm, throttleAt: 90 mm }, balance: ${balance} }`,
      ),
      [7500],
    )[0];
  const [apart, thin, wide] = ['none', '{ inside: 3 mm }', '{ inside: 20 mm }'].map(twin);
  expect(thin).not.toBe(apart);
  expect(Math.abs(thin / apart - 1)).toBeLessThan(0.02);
  expect(Math.abs(wide / apart - 1)).toBeGreaterThan(Math.abs(thin / apart - 1));
});
