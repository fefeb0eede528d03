import { describe, expect, it } from 'vitest';
import { atSpeed } from '../../src/combination/atSpeed.ts';
import { type Carburetion, carburetionAt, venturiSpeed } from '../../src/combination/carburetion.ts';
import type { Combination } from '../../src/combination/combination.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import { liquidFuel } from '../../src/gas/liquidFuel.ts';
import { DROP, DROP_SIZE, evaporateDrop } from '../../src/processes/dropEvaporation.ts';
import { MIXTURE_SCATTER } from '../../src/processes/mixtureScatter.ts';
import { readCombination } from '../../src/reading/readCombination.ts';

/** A street eight of 350 in3, rated at 5500 rpm. */
function eight(rating: number | null, more = ''): Combination {
  const carburetor = rating === null ? '{ barrels: 4 }' : `{ barrels: 4, rating: ${rating} cfm }`;
  const read =
    readCombination(`engine: { bore: 4 in, stroke: 3.48 in, cylinders: 8, layout: v, ratedSpeed: 5500 rpm }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2 }
induction: { carburetor: ${carburetor}${more} }`);
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return read.value;
}

function fuelAt(engine: Combination, rpm: number): Carburetion {
  const carburetion = carburetionAt(engine, rpm);
  if (carburetion === null) throw new Error('no carburetor');
  return carburetion;
}

/** The rating, of four barrels at 1.5 inHg, that makes drops of 50 um at 5500 rpm. */
const USUAL = 655;

describe("a carburetor's fuel at a speed", () => {
  it('is what the estimates say of usual drops at a usual speed', () => {
    const engine = eight(USUAL);
    const { diameter, evaporation, vapour, scatter } = fuelAt(engine, 5500);
    expect(diameter).toBeCloseTo(50e-6, 6);
    expect(evaporation).toBeCloseTo(engine.induction.evaporation, 2);
    expect(vapour).toBeCloseTo(engine.induction.vapour, 2);
    expect(scatter).toBeCloseTo(MIXTURE_SCATTER, 3);
  });

  // 0.7 to 1.2 inHg at the power peak are usual for street and strip (common practice, no source), the estimate of a rating 1.0.
  it('is of 40 to 55 um at the power peak behind carburetors of usual sizes', () => {
    for (const rating of [null, 540, 700]) {
      const { diameter } = fuelAt(eight(rating), 5500);
      expect(diameter).toBeGreaterThan(40e-6);
      expect(diameter).toBeLessThan(55e-6);
    }
  });

  // By hand: 5.735 l x 0.9 x 5500 / 120 = 0.2366 m3/s. 655 cfm at 1.5 inHg, 0.3091 m3/s at 91.9 m/s (1.203 kg/m3), flow
  // through 33.6 cm2, by the law of the nozzle through 3 % more, and that is 0.95 of the venturis: 36.4 cm2.
  it('is torn by air of the mean flow through all venturis', () => {
    const engine = eight(USUAL);
    expect(engine.induction.venturiArea).toBeCloseTo(36.4e-4, 5);
    const speed = venturiSpeed(engine, engine.induction.venturiArea ?? 0, 5500);
    expect(speed).toBeGreaterThan(64.5);
    expect(speed).toBeLessThan(65.5);
  });

  // One cylinder draws for a quarter of the time, so that the same mean flow passes four times as fast.
  it('is torn by faster air where a single draws by gulps', () => {
    const engine = eight(USUAL);
    const [plenum] = engine.induction.plenums;
    const alone = { ...plenum, cylinders: plenum.cylinders.slice(0, 1) };
    const gulping = { ...engine, induction: { ...engine.induction, plenums: [alone] } };
    const area = engine.induction.venturiArea ?? 0;
    expect(venturiSpeed(gulping, area, 2000)).toBeCloseTo(4 * venturiSpeed(engine, area, 2000), 9);
  });

  it('has longer to evaporate the slower the engine, from drops of the same size', () => {
    // Half the venturis at half the speed: the same air, and so the same drops.
    const halved = (engine: Combination): Combination => ({
      ...engine,
      induction: { ...engine.induction, venturiArea: (engine.induction.venturiArea ?? 0) / 2 },
    });
    const [fast, slow] = [fuelAt(eight(USUAL), 5000), fuelAt(halved(eight(USUAL)), 2500)];
    expect(slow.diameter).toBeCloseTo(fast.diameter, 12);
    expect(slow.evaporation).toBeGreaterThan(1.2 * fast.evaporation);
  });

  // By hand: air of 65 x 1500 / 5500 = 17.7 m/s tears drops of 178.7 + 1.3 = 180 um. They have 3.67 times as long, and 12.96 times the
  // surface to lose: 0.405 becomes 0.115, of which a spray has lost 0.189, so that 0.6 of that share is vapour. Of the rest strays
  // St / (1 + St) = 0.787 in 20 ms, where 0.512 of 50 um did in 5.45 ms, 0.7 of them liquid: 1.95 times 0.055, beside 0.0433.
  it('is of 180 um at 1500 rpm, 11 % of it vapour, and scatters by 0.116', () => {
    const { diameter, evaporation, scatter } = fuelAt(eight(USUAL), 1500);
    expect(diameter).toBeCloseTo(180e-6, 6);
    expect(evaporation).toBeCloseTo(0.6 * 0.189, 3);
    expect(scatter).toBeCloseTo(Math.hypot(0.0433, 1.95 * 0.055), 3);
  });

  // Scatter was measured with 0.6 of the fuel liquid at least. Half of it as vapour leaves 0.5: 0.0433 beside 0.055 x 0.5 / 0.6.
  it('scatters less than usual where it is lighter than what was measured', () => {
    const { scatter } = fuelAt(eight(USUAL, ', evaporation: 50 %, vapour: 100 %'), 5500);
    expect(scatter).toBeCloseTo(0.0631, 3);
  });

  it('goes with what a calibration makes of the flow of the venturis', () => {
    const [asRated, more] = ['', ', flowMultiplier: 1.1'].map(
      (stated) => eight(USUAL, stated).induction.venturiArea,
    );
    expect((more ?? 0) / (asRated ?? 1)).toBeCloseTo(1.1, 9);
  });

  it('is coarser, evaporates less and is dealt out less evenly the slower the engine and the larger the carburetor', () => {
    const series = (of: readonly Carburetion[]): void => {
      for (const [i, now] of of.entries()) {
        if (i === 0) continue;
        const before = of[i - 1];
        expect(now.diameter).toBeGreaterThan(before.diameter);
        expect(now.evaporation).toBeLessThan(before.evaporation);
        expect(now.vapour).toBeLessThan(before.vapour);
        expect(now.scatter).toBeGreaterThan(before.scatter);
      }
    };
    series([6500, 5000, 3500, 2500, 1500].map((rpm) => fuelAt(eight(USUAL), rpm)));
    series([350, 500, 650, 850, 1200, 2000].map((rating) => fuelAt(eight(rating), 2500)));
  });

  it('stays between nothing and all, however small or large the carburetor', () => {
    for (const rating of [60, 6000])
      for (const rpm of [300, 9000]) {
        const { evaporation, vapour, scatter } = fuelAt(eight(rating), rpm);
        expect(evaporation).toBeGreaterThan(0);
        expect(vapour).toBeGreaterThanOrEqual(evaporation);
        expect(vapour).toBeLessThanOrEqual(1);
        expect(scatter).toBeGreaterThan(0.04);
        expect(scatter).toBeLessThan(0.2);
      }
  });

  // What has evaporated can't stray: a file may say that next to nothing is left, or nothing at all.
  it('is dealt out the more evenly the more of it the file says is vapour already', () => {
    const of = (evaporation: number, rating: number): number =>
      fuelAt(eight(rating, `, evaporation: ${100 * evaporation} %, vapour: 100 %`), 1500).scatter;
    for (const rating of [USUAL, 6000]) {
      const scatters = [0.4, 0.7, 0.9, 0.999, 1].map((evaporation) => of(evaporation, rating));
      for (const [i, scatter] of scatters.slice(1).entries()) expect(scatter).toBeLessThan(scatters[i]);
      for (const scatter of scatters) expect(scatter).toBeLessThan(0.2);
    }
    // Within each cylinder it is as uneven as ever: the root of 0.07^2 less 0.055^2.
    expect(of(1, 655)).toBeGreaterThanOrEqual(0.0433);
  });

  // The steady drop of Spalding in air of 290 K that passes it by 3 m/s, for the two turns of the crank that it is on its way, 22 ms.
  it('evaporates in the stream about as much as single drops of that size would', () => {
    const drop = new Float64Array(DROP_SIZE);
    drop.set([50e-6, 3, 290, 101_325, 0.02], DROP.diameter);
    const liquid = liquidFuel(fuelNamed('pump-93'));
    if (liquid === null) throw new Error('a gas');
    evaporateDrop(liquid, drop);
    const gone = 1 - Math.exp(-drop[DROP.rate] * ((2 * 60) / 5500));
    expect(gone).toBeGreaterThan(0.15);
    expect(gone).toBeLessThan(0.45);
  });

  it('is dealt out as evenly as usual where each cylinder has its barrel, or the file says how they differ', () => {
    const barrels = eight(null, ', manifold: individual-runner');
    expect(fuelAt(barrels, 2000).scatter).toBe(MIXTURE_SCATTER);
    expect(fuelAt(barrels, 2000).evaporation).toBeLessThan(fuelAt(barrels, 4000).evaporation);
    const stated = eight(1500, ' }\nmixture: { differences: [0.02, -0.02, 0, 0, 0, 0, 0, 0]');
    expect(fuelAt(stated, 2000).scatter).toBe(MIXTURE_SCATTER);
  });

  // Within each cylinder 0.0433; so 0.04 between them makes 0.0590, and 0.07 makes 0.0823.
  it('is dealt out as the file says, at a usual speed of usual drops', () => {
    const of = (scatter: string): number =>
      fuelAt(eight(USUAL, ` }\nmixture: { scatter: ${scatter}`), 5500).scatter;
    expect(of('0 %')).toBeCloseTo(0.0433, 4);
    expect(of('4 %')).toBeCloseTo(0.059, 3);
    expect(of('7 %')).toBeCloseTo(0.0823, 3);
    // The most a file may say, of the coarsest drops: still a share that the law of scattered mixture takes.
    expect(fuelAt(eight(6000, ' }\nmixture: { scatter: 12 %'), 300).scatter).toBeLessThan(0.45);
  });

  it('is listed as assumed, 5.5 % and 1 more or less, where a carburetor deals liquid fuel out', () => {
    const listed = ({ assumed }: Combination) => assumed.find(({ path }) => path === 'mixture.scatter');
    expect(listed(eight(USUAL))).toMatchObject({ value: 5.5, unit: '%', spread: 1 });
    for (const more of [
      ', manifold: individual-runner',
      ' }\nfuel: propane\nmixture: { lambda: 0.9',
      ' }\nmixture: { differences: [0.02, -0.02, 0, 0, 0, 0, 0, 0]',
      ' }\nmixture: { scatter: 4 %',
    ])
      expect(listed(eight(USUAL, more)), more).toBeUndefined();
  });

  it('is said to be of no use where nothing is dealt out, or the file says what each cylinder has', () => {
    const unused = (more: string) =>
      eight(USUAL, more).warnings.filter(({ path }) => path === 'mixture.scatter');
    expect(unused(' }\nmixture: { scatter: 4 %')).toEqual([]);
    const [alone] = unused(', manifold: individual-runner }\nmixture: { scatter: 4 %');
    expect(alone.code).toBe('field-unused');
    expect(alone.message).toContain('deals liquid fuel out to several cylinders');
    const each = 'differences: [0.02, -0.02, 0, 0, 0, 0, 0, 0]';
    expect(unused(` }\nmixture: { scatter: 4 %, ${each}`)[0].message).toContain('mixture.differences says');
  });

  it('is nothing behind a throttle, nor of a gas', () => {
    const engine = eight(USUAL);
    expect(carburetionAt({ ...engine, fuel: fuelNamed('propane') }, 3000)).toBeNull();
    const { venturiArea: _, ...throttle } = engine.induction;
    const injected = { ...engine, induction: throttle };
    expect(carburetionAt(injected, 3000)).toBeNull();
    expect(atSpeed(injected, 3000)).toBe(injected);
  });

  it('is asked for once: an engine at one speed has the shares of its own drops', () => {
    const standing = atSpeed(eight(1200), 2500);
    expect(standing.induction.evaporation).toBe(fuelAt(eight(1200), 2500).evaporation);
    expect(atSpeed(standing, 2500)).toBe(standing);
  });
});
