/**
 * What comes through and what comes back of a small wave, by frequency and with its phase, against closed forms of linear acoustics:
 * Kinsler, Frey, Coppens and Sanders, Fundamentals of Acoustics (4th ed., 2000), chapter 10 (from memory), plane waves along x.
 */
import { describe, expect, it } from 'vitest';
import { type Complex, complex, minus, over, plus, sizeOf, times } from './complexNumbers.ts';
import { idealGas } from './idealGas.ts';
import { ductSpec } from './networks.ts';
import { type LineBench, sendAlong, spectrum, TEMPERATURE, wall } from './pulseBench.ts';

const S = 1e-3;
const LENGTH = 4;
/** A cell as the intake is cut into by default [m], and one half as long. */
const USUAL = 0.025;
const FINE = 0.0125;
const c = Math.sqrt(1.4 * 287 * TEMPERATURE);

interface Scattered {
  readonly through: Complex;
  readonly back: Complex;
}

type Line = Omit<LineBench, 'tables'>;

const send = (line: Line) =>
  sendAlong({
    tables: idealGas({ R: 287, freshGamma: 1.4, burnedGamma: 1.4, heat: 0 }),
    ...line,
  });

/** Heard of a line, over what a pipe without anything passes on and a closed one sends back. */
function scattering(line: Line): (frequency: number) => Scattered {
  const [plain, closed, heard] = [
    { ...line, areas: [S, S], middle: 0, beside: {} },
    { ...line, areas: [S, S], middle: 0, end: 'closed' as const, beside: {} },
    line,
  ].map(send);
  // What is sent has gone by, and nothing has come back yet.
  const between = (0.75 * line.length) / c;
  return (frequency) => {
    const of = (t: readonly number[], p: readonly number[], from: number): Complex =>
      spectrum(t, p, frequency, from);
    return {
      through: over(of(heard.t, heard.behind, 0), of(plain.t, plain.behind, 0)),
      back: over(of(heard.t, heard.before, between), of(closed.t, closed.before, between)),
    };
  };
}

const waves = (frequency: number): number => (2 * Math.PI * frequency) / c;
/** Phase of a wave that has gone so far [m]. */
const gone = (k: number, x: number): Complex => complex(Math.cos(k * x), -Math.sin(k * x));

/** Within 2 % of what was sent, in size and phase. */
function expectNear(got: Complex, said: Complex, what: string): void {
  expect(sizeOf(minus(got, said)), what).toBeLessThan(0.02);
}

function expectScattered(line: Line, said: (k: number) => Scattered, frequencies: readonly number[]): void {
  const at = scattering(line);
  for (const frequency of frequencies) {
    const [got, want] = [at(frequency), said(waves(frequency))];
    expectNear(got.through, want.through, `through at ${frequency} Hz`);
    expectNear(got.back, want.back, `back at ${frequency} Hz`);
  }
}

/** A branch in the middle of a piece of three cells: its admittance over that of the pipe. */
const branched = (k: number, admittance: Complex, cell: number): Scattered => {
  const all = plus(complex(2), admittance);
  const piece = gone(k, 3 * cell);
  return {
    through: times(over(complex(2), all), piece),
    back: times(over(minus(complex(0), admittance), all), piece),
  };
};

interface Branch {
  readonly area: number;
  readonly length: number;
  readonly cell: number;
  readonly open?: boolean;
  /** Of the pipe on either side. */
  readonly pipe?: number;
}

function branchLine({ area, length, cell, open = false, pipe = LENGTH }: Branch): Line {
  return {
    length: pipe,
    cell,
    areas: [S, S],
    middle: 3 * cell,
    beside: {
      ducts: [ductSpec(length, [area, area], Math.round(length / cell))],
      cells: [{ duct: 0, at: pipe + 1.5 * cell }],
      ends: [
        { duct: 1, at: 'left', to: { kind: 'cell', index: 0 }, opening: { area } },
        { ...wall(1, 'right'), opening: { area: open ? area : 0 } },
      ],
    },
  };
}

describe('a small wave, within 2 %', () => {
  it.each([2, 4, 0.5])('at a step to %f times the area: 2 S1 / (S1 + S2) goes on', (m) => {
    const middle = 2 * FINE;
    expectScattered(
      { length: LENGTH, cell: FINE, areas: [S, m * S], middle },
      (k) => ({
        through: times(complex(2 / (1 + m)), gone(k, middle)),
        back: times(complex((1 - m) / (1 + m)), gone(k, middle)),
      }),
      [50, 100, 150],
    );
  });

  it.each([0.5, 1, 2])('at a long branch of %f of the area: 2 S / (2 S + Sb) goes on', (share) => {
    expectScattered(
      branchLine({ area: share * S, length: LENGTH, cell: USUAL }),
      (k) => branched(k, complex(share), USUAL),
      [50, 100, 150, 200],
    );
  });

  it.each([
    [USUAL, [60, 100, 150, 200]],
    [FINE, [60, 100, 150, 200, 250, 285, 300]],
  ])('at a stub of 0.3 m, closed: its admittance is j Sb tan kL; cells of %f m', (cell, frequencies) => {
    const stub = 0.3;
    expectScattered(
      branchLine({ area: S, length: stub, cell }),
      (k) => branched(k, complex(0, Math.tan(k * stub)), cell),
      frequencies,
    );
  });

  // Half of a balance tube between runners that swing against each other: at its middle pressure stands still.
  it("at a thin short tube, open: its admittance is -j Sb / (S tan kL), half of the pipe's own for 5 % of its area", () => {
    const [area, length] = [0.05 * S, 0.05];
    expectScattered(
      branchLine({ area, length, cell: USUAL, open: true, pipe: 14 }),
      (k) => branched(k, complex(0, -area / S / Math.tan(k * length)), USUAL),
      [60, 100, 150, 200],
    );
    expect(0.05 / Math.tan(waves(100) * length)).toBeGreaterThan(0.5);
  });

  it.each([USUAL, FINE])('in a cone that widens fourfold over 0.4 m; cells of %f m', (cell) => {
    const length = 0.4;
    expectScattered(
      { length: LENGTH, cell, areas: coneAreas, middle: length },
      (k) => {
        const { p, u } = coneAt(k, length, complex(1), complex(1));
        // In units where rho c = 1, p + u is twice what comes in and p - u twice what goes back.
        const comes = plus(p, u);
        return { through: over(complex(2), comes), back: over(minus(p, u), comes) };
      },
      [60, 100, 150, 200, 250, 300, 350],
    );
  });

  it.each([
    [USUAL, [60, 100, 150, 200]],
    [FINE, [60, 100, 150, 200, 250, 300, 350]],
  ])('in a megaphone of 0.4 m, open at its wide end; cells of %f m', (cell, frequencies) => {
    const length = 0.4;
    const at = scattering({ length: LENGTH, cell, areas: coneAreas, middle: length, end: 'open' });
    for (const frequency of frequencies) {
      const { p, u } = coneAt(waves(frequency), length, complex(0), complex(1));
      const said = over(minus(p, u), plus(p, u));
      expectNear(at(frequency).back, said, `back at ${frequency} Hz`);
    }
  });
});

// Only the ratio of areas counts. A box of 300 cm2 behind a pipe of 50 cm2 is 195 mm wide: waves run across it from 1.84 c / (pi d) = 1040 Hz on.
it('an expansion chamber of 300 mm loses 10 lg(1 + (m - 1/m)^2 / 4 sin^2 kL), within 1 dB below its first cross mode', () => {
  const m = 6;
  const pieces = 24;
  const middle = pieces * FINE;
  const areas = Array.from({ length: pieces + 1 }, (_, i) => (i === 0 || i === pieces ? S : m * S));
  const at = scattering({ length: 7, cell: FINE, width: 0.08, areas, middle });
  // Each step takes a cell: the chamber is as long as from the middle of one to that of the other.
  const length = middle - FINE;
  for (let frequency = 50; frequency <= 1000; frequency += 50) {
    const sine = Math.sin(waves(frequency) * length);
    const said = 10 * Math.log10(1 + 0.25 * (m - 1 / m) ** 2 * sine * sine);
    const lost = -20 * Math.log10(sizeOf(at(frequency).through));
    expect(
      Math.abs(lost - said),
      `${frequency} Hz: ${lost.toFixed(2)} dB, not ${said.toFixed(2)}`,
    ).toBeLessThan(1);
  }
});

/** Diameter grows evenly to twice what it was. */
const coneAreas = Array.from({ length: 65 }, (_, i) => S * (1 + i / 64) ** 2);

/**
 * Pressure and velocity at the narrow end of a cone, from those at its wide end, twice as far from the apex, where rho c = 1. Plane waves in a
 * horn (Webster): with x from the apex, (x p)'' = -k^2 x p, and u = (j / k) dp/dx.
 */
function coneAt(
  k: number,
  length: number,
  p: Complex,
  u: Complex,
): { readonly p: Complex; readonly u: Complex } {
  const [near, far] = [length, 2 * length];
  // q = x p = a cos k(x - far) + b sin k(x - far), with q' = p + x p' and p' = -j k u.
  const a = times(complex(far), p);
  const b = over(minus(p, times(complex(0, k * far), u)), complex(k));
  const [C, D] = [complex(Math.cos(k * (near - far))), complex(Math.sin(k * (near - far)))];
  const q = plus(times(a, C), times(b, D));
  const slope = times(complex(k), minus(times(b, C), times(a, D)));
  const dp = over(minus(slope, over(q, complex(near))), complex(near));
  return { p: over(q, complex(near)), u: times(complex(0, 1 / k), dp) };
}
