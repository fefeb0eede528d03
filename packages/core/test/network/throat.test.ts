/** Throats alone and in series against closed forms of an ideal gas. */
import { describe, expect, it } from 'vitest';
import { orificeFlow } from '../../src/network/orifice.ts';
import { stillGas } from '../../src/network/side.ts';
import { findPass, PASS, passOf, type Throat } from '../../src/network/throat.ts';
import { bordaLost, filledBore } from './filledBore.ts';
import { idealGas } from './idealGas.ts';

const R = 287;
const AIR = idealGas({ R, freshGamma: 1.4, burnedGamma: 1.4, heat: 0 });

function passed(throats: readonly Throat[], up: number, down: number, T = 293.15): Float64Array {
  const pass = passOf(throats, 'along');
  pass[PASS.gamma] = 1.4;
  pass[PASS.RT] = R * T;
  pass[PASS.up] = up;
  pass[PASS.down] = down;
  findPass(pass);
  return pass;
}

const mass = (throats: readonly Throat[], up: number, down: number): number =>
  passed(throats, up, down)[PASS.mass];

/** sqrt(gamma / (R T)) (2 / (gamma + 1))^((gamma + 1) / (2 (gamma - 1))) p0, per area. */
const sonic = (p0: number, T = 293.15): number => p0 * Math.sqrt(1.4 / (R * T)) * (2 / 2.4) ** 3;

describe('one throat', () => {
  it('that loses its jet is the nozzle', () => {
    for (const down of [101_320, 1e5, 9e4, 6e4, 3e4]) {
      const nozzle = orificeFlow(stillGas(AIR, 101_325, 293.15, 0), stillGas(AIR, down, 293.15, 0), 2e-3);
      expect(mass([{ area: 2e-3, lost: 1 }], 101_325, down) / nozzle).toBeCloseTo(1, 6);
    }
  });

  it('of 20 mm passes 0.0751 kg/s at the speed of sound, whatever its diffuser gives back', () => {
    const area = (Math.PI / 4) * 0.02 ** 2;
    expect(sonic(101_325) * area).toBeCloseTo(0.0751, 4);
    for (const lost of [0.1, 0.3, 1]) {
      const choked = mass([{ area, lost }], 101_325, 101_325 * (1 - 0.48 * lost));
      expect(choked / (sonic(101_325) * area)).toBeCloseTo(1, 9);
    }
  });

  it('chokes where the share of the drop that is lost reaches that of the critical ratio', () => {
    const critical = 0.528_281_788;
    const at = (drop: number): number => mass([{ area: 1e-3, lost: 0.2 }], 1e5, 1e5 * (1 - drop));
    const whole = sonic(1e5) * 1e-3;
    expect(at(0.2 * (1 - critical) * 1.001) / whole).toBeCloseTo(1, 9);
    expect(at(0.2 * (1 - critical) * 0.9) / whole).toBeLessThan(0.9999);
  });

  // A carburetor's: 0.84 of the venturi, in a throttle bore of 1.21 venturis. In a much wider bore the share falls as the jet speeds up.
  it.each([
    [0.84 / 1.21 ** 2, 0.0025],
    [0.3, 0.02],
  ])(
    'of %f of its bore passes what a jet that fills the bore by its momentum does, up to the speed of sound',
    (share, within) => {
      const one = [{ area: 1e-3, lost: bordaLost(share) }];
      for (const throat of [0.999, 0.98, 0.95, 0.9, 0.8, 0.7, 0.6, 0.528_282]) {
        const { behind, flow } = filledBore(throat, share);
        const closed = (flow * 1e-3 * 1e5) / Math.sqrt(R * 293.15);
        expect(Math.abs(mass(one, 1e5, behind * 1e5) / closed - 1), `${throat}`).toBeLessThan(within);
      }
      // What the two take as lost is the same where nothing is compressed.
      expect((1 - filledBore(0.9999, share).behind) / 1e-4 / bordaLost(share)).toBeCloseTo(1, 3);
    },
  );

  it('at small drops is an incompressible loss: sqrt(2 rho drop / lost)', () => {
    const rho = 1e5 / (R * 293.15);
    for (const lost of [0.25, 1, 4]) {
      const expected = 1e-3 * Math.sqrt((2 * rho * 15) / lost);
      expect(mass([{ area: 1e-3, lost }], 1e5, 1e5 - 15) / expected).toBeCloseTo(1, 3);
    }
  });
});

describe('two throats in series', () => {
  it('at small drops add their losses', () => {
    const rho = 1e5 / (R * 293.15);
    const expected = Math.sqrt((2 * rho * 15) / (1 / 1e-3 ** 2 + 0.5 / 0.7e-3 ** 2));
    const both = [
      { area: 1e-3, lost: 1 },
      { area: 0.7e-3, lost: 0.5 },
    ];
    expect(mass(both, 1e5, 1e5 - 15) / expected).toBeCloseTo(1, 3);
  });

  it.each([
    [2e-3, 1, 1e-3, 1, 9e4],
    [1e-3, 1, 1.2e-3, 1, 4e4],
    [3e-4, 0.15, 1.5e-3, 0.8, 8.5e4],
    [1.5e-3, 0.8, 3e-4, 0.15, 8.5e4],
    [1e-3, 1, 8e-3, 1, 9e4],
    [1e-3, 1, 1e-3, 1, 1e4],
  ])('%f (%f) and %f (%f) pass the same, to what the gas law says of each alone', (a, la, b, lb, down) => {
    const pass = passed(
      [
        { area: a, lost: la },
        { area: b, lost: lb },
      ],
      1e5,
      down,
    );
    const between = pass[PASS.between];
    expect(between).toBeGreaterThan(down);
    expect(between).toBeLessThan(1e5);
    expect(mass([{ area: a, lost: la }], 1e5, between) / pass[PASS.mass]).toBeCloseTo(1, 7);
    expect(mass([{ area: b, lost: lb }], between, down) / pass[PASS.mass]).toBeCloseTo(1, 7);
  });

  it('choke in the first at its sonic flow, in the second at that of the pressure between', () => {
    const first = mass(
      [
        { area: 3e-4, lost: 1 },
        { area: 1.5e-3, lost: 1 },
      ],
      1e5,
      4e4,
    );
    expect(first / (sonic(1e5) * 3e-4)).toBeCloseTo(1, 9);
    const pass = passed(
      [
        { area: 1.5e-3, lost: 1 },
        { area: 3e-4, lost: 1 },
      ],
      1e5,
      3e4,
    );
    expect(pass[PASS.mass] / (sonic(pass[PASS.between]) * 3e-4)).toBeCloseTo(1, 9);
  });

  it('say how the flow goes with the pressure behind', () => {
    const both = [
      { area: 1e-3, lost: 0.8 },
      { area: 0.7e-3, lost: 1 },
    ];
    for (const down of [99_995, 9.5e4, 8e4]) {
      const pass = passed(both, 1e5, down);
      const [more, less] = [mass(both, 1e5, down - 0.5), mass(both, 1e5, down + 0.5)];
      expect(pass[PASS.slope] / (less ** 2 - more ** 2)).toBeCloseTo(1, 3);
    }
  });
});

it('against the stream the last comes first, and a diffuser gives nothing back', () => {
  const pass = passOf(
    [
      { area: 1e-3, lost: 0.2 },
      { area: 2e-3, lost: 1.5 },
    ],
    'against',
  );
  expect([...pass.slice(0, 4)]).toEqual([2e-3, 1.5, 1e-3, 1]);
});
