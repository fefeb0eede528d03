/** The end of a duct: walls, rest, choking, continuity and monotony of the nozzle solved with the outgoing wave. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Duct } from '../../src/network/duct.ts';
import { ductFace, END, END_SIZE, NOZZLE, NOZZLE_SIZE, solveDuctEnd } from '../../src/network/ductEnd.ts';
import { SIDE, SIDE_SIZE, stillGas } from '../../src/network/side.ts';
import { idealGas } from './idealGas.ts';

const R = 287;
const AREA = 1e-3;
const GAS = idealGas({ R, freshGamma: 1.4, burnedGamma: 1.4, heat: 0 });

/** Face of a duct: pressure [Pa], temperature [K] and velocity out of the duct [m/s]. */
function faceOf(p: number, T: number, w = 0): Float64Array {
  const face = stillGas(GAS, p, T, 0);
  face[SIDE.w] = w;
  return face;
}

function flowOf(face: Float64Array, volume: Float64Array, area: number): Float64Array {
  const out = new Float64Array(END_SIZE);
  flowInto(out, face, volume, area);
  return out;
}

/** The same, searched from the flow that `out` holds. */
function flowInto(out: Float64Array, face: Float64Array, volume: Float64Array, area: number): void {
  const nozzle = new Float64Array(NOZZLE_SIZE);
  nozzle[NOZZLE.area] = area;
  nozzle[NOZZLE.ductArea] = AREA;
  nozzle[NOZZLE.start] = out[END.speed];
  solveDuctEnd(face, volume, nozzle, out);
}

const massAt = (p: number, pv: number, area: number, w = 0) =>
  flowOf(faceOf(p, 300, w), stillGas(GAS, pv, 300, 0), area)[END.mass];

describe('solveDuctEnd', () => {
  it('has a face as long as its side', () => {
    expect(faceOf(1e5, 300)).toHaveLength(SIDE_SIZE);
  });

  it('passes nothing through a wall, which bears the pressure of the wave it stops', () => {
    const w = 50;
    const flow = flowOf(faceOf(1e5, 300, w), stillGas(GAS, 5e5, 300, 0), 0);
    expect([flow[END.mass], flow[END.burned], flow[END.energy]]).toEqual([0, 0, 0]);
    // Isentropic compression to rest: p (1 + 0.2 M)^7.
    const mach = w / Math.sqrt(1.4 * R * 300);
    expect(flow[END.force]).toBeCloseTo(1e5 * (1 + 0.2 * mach) ** 7 * AREA, 8);
  });

  it('passes nothing at rest between equal pressures, whatever the temperatures', () => {
    for (const T of [250, 300, 1200]) {
      const flow = flowOf(faceOf(1e5, T), stillGas(GAS, 1e5, 400, 0), AREA / 2);
      expect(Math.abs(flow[END.mass])).toBeLessThan(1e-12);
      expect(flow[END.force]).toBeCloseTo(1e5 * AREA, 9);
    }
  });

  it.each([
    ['into', 1],
    ['out of', -1],
  ])('chokes at 0.684731 area p0 / sqrt(R T0) %s a duct many times wider', (_, way) => {
    // psi of gamma 1.4 at the critical ratio; a throat of a thousandth hardly stirs the duct.
    const area = AREA / 1000;
    const expected = (0.684731 * area * 4e5) / Math.sqrt(R * 300);
    const m = way > 0 ? -massAt(1e5, 4e5, area) : massAt(4e5, 1e5, area);
    expect(m / expected).toBeCloseTo(1, 2.5);
  });

  it('does not feel the pressure beyond a choked throat', () => {
    const area = AREA / 3;
    expect(massAt(6e5, 1e5, area) / massAt(6e5, 5e4, area)).toBeCloseTo(1, 6);
  });

  it.each([1.2, 1.22, 1.25, 1.28, 1.33, 1.4, 1.6])(
    'stops a stream of gamma %f at a wall by its wave, to a millionth',
    (gamma) => {
      const k = 2 / (gamma - 1);
      const c = Math.sqrt(gamma * R * 700);
      for (let v = -0.3; v <= 0.3; v += 0.0125) {
        const face = faceOf(1.4e5, 700, v * k * c);
        face[SIDE.gamma] = gamma;
        const flow = flowOf(face, stillGas(GAS, 1e5, 700, 0), 0);
        expect(flow[END.mass]).toBe(0);
        expect(Math.abs(flow[END.force] / (1.4e5 * (1 + v) ** (k + 2) * AREA) - 1)).toBeLessThan(1e-6);
      }
    },
  );

  it('lets a stream faster than sound out of an open end as it comes, since no wave runs up it', () => {
    const [p, T, w] = [2e4, 200, 450];
    const face = faceOf(p, T, w);
    const flow = flowOf(face, stillGas(GAS, 1e4, T, 0), AREA);
    const mass = (p / (R * T)) * w * AREA;
    expect(flow[END.mass] / mass).toBeCloseTo(1, 12);
    expect(flow[END.force] / (p * AREA + mass * w)).toBeCloseTo(1, 12);
    expect(flow[END.energy] / (mass * (face[SIDE.h] + 0.5 * w * w))).toBeCloseTo(1, 12);
    // At the speed of sound both ways of looking at it meet.
    const sound = Math.sqrt(1.4 * R * T);
    const [below, above] = [sound - 0.01, sound + 0.01].map(
      (speed) => flowOf(faceOf(p, T, speed), stillGas(GAS, 1e4, T, 0), AREA)[END.mass],
    );
    expect(above / below).toBeCloseTo(1, 3);
  });

  it.each([
    ['a throat of a third of the duct', 1 / 3],
    ['an opening as wide as the duct', 1],
    ['one wider than the duct', 1.3],
  ])('fills a duct through %s no faster than sound, however hard it draws', (_, share) => {
    const volume = stillGas(GAS, 4e5, 600, 0);
    // 0.684731 area p0 / sqrt(R T0) once more, of the throat or of the duct that is filled; sound at T0 / 1.2.
    const area = Math.min(1, share) * AREA;
    const mass = (0.684731 * area * 4e5) / Math.sqrt(R * 600);
    const sound = Math.sqrt((1.4 * R * 600) / 1.2);
    const pressure = (mass * R * 500) / (sound * AREA);
    for (const [p, w] of [
      [0.3 * pressure, -sound],
      [0.1 * pressure, -1.5 * sound],
      [0.02 * pressure, -2 * sound],
    ]) {
      const flow = flowOf(faceOf(p, 300, w), volume, share * AREA);
      expect(-flow[END.mass] / mass).toBeCloseTo(1, 5);
      expect(flow[END.force] / (pressure * AREA + mass * sound)).toBeCloseTo(1, 5);
      expect(flow[END.energy] / flow[END.mass]).toBeCloseTo(volume[SIDE.h], 6);
    }
  });

  // Gas that already leaves the end fast is the harder to tell: the wave of the stream it would have raises the pressure most.
  it.each([
    [0.5, -300],
    [0.8, -500],
  ])(
    'passes as much just before the duct is filled at the speed of sound as just after: %f of the duct, gas at %f m/s',
    (share, w) => {
      const volume = stillGas(GAS, 4e5, 600, 0);
      const masses = Array.from({ length: 3000 }, (_, i) => {
        const p = 3e5 * 0.998 ** i;
        return -flowOf(faceOf(p, 600, w), volume, share * AREA)[END.mass];
      });
      masses.slice(1).forEach((m, i) => {
        // Less pressure in the duct never passes less, and nowhere by a jump.
        expect(m).toBeGreaterThan(masses[i] * (1 - 4e-5));
        expect(m).toBeLessThan(masses[i] * 1.01);
      });
    },
  );

  it('lets it through a throat that is wide enough for it too: 0.592593 of the duct at twice the speed of sound', () => {
    const [p, T] = [2e4, 200];
    const w = 2 * Math.sqrt(1.4 * R * T);
    const arriving = (p / (R * T)) * w * AREA;
    const through = (share: number) =>
      flowOf(faceOf(p, T, w), stillGas(GAS, 1e4, T, 0), share * AREA)[END.mass] / arriving;
    expect(through(0.5926)).toBeCloseTo(1, 12);
    // A narrower one stops it, and the wave that does so counts as one without loss.
    expect(Math.abs(through(0.5925) - 1)).toBeGreaterThan(0.05);
  });

  it('passes what a fully open end does by linear acoustics, m = A dp / c for a small step', () => {
    const c = Math.sqrt(1.4 * R * 300);
    const dp = 10;
    // At a full opening to still gas the duct's pressure falls to the volume's: u = dp / (rho c).
    expect(massAt(1e5 + dp, 1e5, AREA) / ((AREA * dp) / c)).toBeCloseTo(1, 3);
  });

  it('passes through zero continuously', () => {
    for (const share of [0.05, 0.4, 0.95]) {
      const tiny = [1e-1, 1e-2, 1e-3].map((d) => [
        massAt(1e5 + d, 1e5, share * AREA),
        massAt(1e5 - d, 1e5, share * AREA),
      ]);
      for (const [i, [out, back]] of tiny.entries()) {
        expect(out).toBeGreaterThanOrEqual(0);
        expect(back).toBeLessThanOrEqual(0);
        // Never above the acoustic bound A dp / c, so it goes to zero with the pressure difference.
        const bound = (AREA * 10 ** -(i + 1)) / Math.sqrt(1.4 * R * 300);
        expect(Math.max(out, -back)).toBeLessThan(1.05 * bound + 1e-9);
      }
    }
  });

  it('satisfies the nozzle law and the outgoing wave it was solved from', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.6e5, max: 5e5, noNaN: true }),
        fc.double({ min: 0.03, max: 0.98, noNaN: true }),
        fc.double({ min: -80, max: 80, noNaN: true }),
        (p, share, w) => {
          const face = faceOf(p, 600, w);
          const volume = stillGas(GAS, 1e5, 600, 0);
          const flow = flowOf(face, volume, share * AREA);
          const m = flow[END.mass];
          if (m <= 1e-4) return;
          // Face state on the characteristic from the flow: force = p + m u / A, with isentropic p(u).
          const c = Math.sqrt(1.4 * R * 600);
          const rho = p / (R * 600);
          const massFlow = (u: number) => {
            const x = 1 + (w - u) / (5 * c);
            return rho * x ** 5 * u * AREA;
          };
          let low = 0;
          let high = (5 * c + w) / 6;
          for (let i = 0; i < 200; i++) {
            const mid = 0.5 * (low + high);
            if (massFlow(mid) < m) low = mid;
            else high = mid;
          }
          const x = 1 + (w - low) / (5 * c);
          const cf = c * x;
          const pFace = p * x ** 7;
          const z = 1 + (0.2 * low * low) / (cf * cf);
          const p0 = pFace * z ** 3.5;
          const T0 = 600 * x * x * z;
          const pr = Math.max(1e5 / p0, 0.528282);
          const psi = Math.sqrt(7 * (pr ** (2 / 1.4) - pr ** (2.4 / 1.4)));
          expect((share * AREA * p0 * psi) / Math.sqrt(R * T0) / m).toBeCloseTo(1, 4);
          expect(flow[END.force] / (pFace * AREA + m * low)).toBeCloseTo(1, 6);
          expect(flow[END.energy] / m / (face[SIDE.h] + 3.5 * R * (T0 - 600))).toBeCloseTo(1, 6);
        },
      ),
    );
  });

  it('rises with the duct pressure and falls with the volume pressure', () => {
    const pressure = fc.double({ min: 0.3e5, max: 8e5, noNaN: true });
    const above = fc.double({ min: 0.05, max: 20, noNaN: true });
    const share = fc.double({ min: 0.02, max: 1, noNaN: true });
    const speed = fc.double({ min: -100, max: 100, noNaN: true });
    fc.assert(
      fc.property(pressure, above, share, speed, (p, ratio, s, w) => {
        const pv = ratio * p;
        const area = s * AREA;
        const m = massAt(p, pv, area, w);
        // The search leaves a fifty-thousandth of each flow, and where one is choked the two are the same.
        const scale = 4e-5 * Math.max(Math.abs(m), 1e-4);
        expect(massAt(p * 1.02, pv, area, w)).toBeGreaterThan(m - scale);
        expect(massAt(p, pv * 1.02, area, w)).toBeLessThan(m + scale);
      }),
    );
  });

  it('brings in the enthalpy and burned share of the volume and takes out those of the duct', () => {
    const volume = stillGas(GAS, 2e5, 500, 0.3);
    const inward = flowOf(faceOf(1e5, 300), volume, AREA / 2);
    expect(inward[END.burned] / inward[END.mass]).toBeCloseTo(0.3, 12);
    expect(inward[END.energy] / inward[END.mass]).toBeCloseTo(volume[SIDE.h], 6);
    const outward = flowOf(stillGas(GAS, 3e5, 400, 0.7), volume, AREA / 2);
    expect(outward[END.mass]).toBeGreaterThan(0);
    expect(outward[END.burned] / outward[END.mass]).toBeCloseTo(0.7, 12);
  });

  it('finds the same flow from a search started at the last one, to a twenty-thousandth', () => {
    const pressure = fc.double({ min: 0.5e5, max: 5e5, noNaN: true });
    const ratio = fc.double({ min: 0.5, max: 2, noNaN: true });
    const share = fc.double({ min: 0.02, max: 1, noNaN: true });
    const speed = fc.double({ min: -150, max: 150, noNaN: true });
    // From step to step pressures move by some percent.
    const drift = fc.double({ min: 0.95, max: 1.05, noNaN: true });
    fc.assert(
      fc.property(pressure, ratio, share, speed, drift, drift, (p, r, s, w, pDrift, areaDrift) => {
        const volume = stillGas(GAS, r * p, 500, 0);
        const cold = flowOf(faceOf(p, 600, w), volume, s * AREA);
        const warm = flowOf(faceOf(p * pDrift, 600, w + 5), volume, s * areaDrift * AREA);
        flowInto(warm, faceOf(p, 600, w), volume, s * AREA);
        expect(Math.abs(warm[END.mass] - cold[END.mass])).toBeLessThan(
          5e-5 * Math.abs(cold[END.mass]) + 1e-9,
        );
      }),
      { numRuns: 2000 },
    );
  });
});

describe('ductFace', () => {
  /** A duct of one cell of still gas at 1e5 Pa and 300 K: its burned share, and how much that rises along the cell. */
  const cellOf = (b: number, rise: number): Duct => {
    const side = stillGas(GAS, 1e5, 300, b);
    const one = (value: number): Float64Array => new Float64Array([value]);
    return {
      cells: 1,
      tables: GAS,
      slope: new Float64Array([0, 0, 0, rise]),
      rho: one(side[SIDE.rho]),
      p: one(1e5),
      u: one(0),
      b: one(b),
      T: one(300),
      e: one(side[SIDE.e]),
      cv: one(R / 0.4),
      eBurn: one(0),
      cellArea: one(AREA),
      faceArea: new Float64Array([AREA, AREA]),
    } as unknown as Duct;
  };

  it.each([
    [0.5, 0.2, 'right', 0.6],
    [0.5, 0.2, 'left', 0.4],
    [0.95, 0.2, 'right', 1],
    [0.05, 0.2, 'left', 0],
  ] as const)(
    'runs a burned share of %f that rises by %f along the cell on to its face, and never past none or all',
    (b, rise, at, expected) => {
      const face = new Float64Array(SIDE_SIZE);
      ductFace(cellOf(b, rise), at, face);
      expect(face[SIDE.b]).toBeCloseTo(expected, 12);
      expect(face[SIDE.T]).toBeCloseTo(300, 9);
    },
  );
});
