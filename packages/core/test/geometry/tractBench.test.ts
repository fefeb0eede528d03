import { describe, expect, it } from 'vitest';
import { seriesArea } from '../../src/geometry/flowSheet.ts';
import { nozzleBeforeDuct, nozzleBehindDuct, runnerMouth } from '../../src/geometry/tractBench.ts';
import { intakeProfile } from '../../src/geometry/tractProfile.ts';

const AREA = 1.5e-3;
const LENGTH = 0.4;
const straight = [
  { x: 0, area: AREA },
  { x: LENGTH, area: AREA },
];
const FANNING = 0.006;
const VALVE = 0.9e-3;

/** Area that friction of a straight pipe is worth: 4 f L / D dynamic pressures, A / sqrt(4 f L / D) (Darcy; incompressible). */
const diameter = Math.sqrt((4 * AREA) / Math.PI);
const PIPE = AREA / Math.sqrt((4 * FANNING * LENGTH) / diameter);

describe('the friction of a duct on the bench', () => {
  // By hand: D = 43.702 mm, 4 f L / D = 0.21967, A / sqrt of it = 3.2004e-3 m2.
  it('is that of Darcy where the flow is slow: an area behind it that both in series make the stated one', () => {
    expect(PIPE).toBeCloseTo(3.2004e-3, 7);
    const area = nozzleBehindDuct(VALVE, { profile: straight, fanning: FANNING }, 10);
    expect(seriesArea(area, PIPE) / VALVE).toBeCloseTo(1, 5);
  });

  // Shapiro's table of adiabatic flow with friction, gamma 1.4: 4 f L*/D is 14.533 at Mach 0.2, 5.2993 at 0.3, and p0/p0* is
  // 2.9635 and 2.0351.
  it('takes what the tables of adiabatic flow with friction say, from Mach 0.2 to 0.3', () => {
    const fanning = ((14.533 - 5.2993) * diameter) / (4 * LENGTH);
    const psi = (mach: number): number => Math.sqrt(1.4) * mach * (1 + 0.2 * mach * mach) ** -3;
    // The bench flow that enters at Mach 0.2 and goes on through a nozzle at ratio 0.5: choked whatever is lost before.
    const choked = Math.sqrt(1.4) * 1.2 ** -3;
    const sheet = (AREA * psi(0.2)) / choked;
    const fine = Array.from({ length: 33 }, (_, i) => ({ x: (i * LENGTH) / 32, area: AREA }));
    const area = nozzleBehindDuct(sheet, { profile: fine, fanning }, 50_000 * 1.01325 * 1.5);
    expect(sheet / area).toBeCloseTo(2.0351 / 2.9635, 3);
  });

  it('is none without friction, and the nozzle in front of a straight duct then is the sheet itself', () => {
    const duct = { profile: straight, fanning: 0 };
    expect(nozzleBehindDuct(VALVE, duct) / VALVE).toBeCloseTo(1, 12);
    expect(nozzleBeforeDuct(VALVE, duct) / VALVE).toBeCloseTo(1, 9);
  });

  it('asks for less in front of a duct that widens: it gives pressure back, as Bernoulli says', () => {
    const wider = [
      { x: 0, area: AREA },
      { x: LENGTH, area: 2 * AREA },
    ];
    // At 10 Pa: dp is lost by the jet but for what the wide end leaves, (a/A)^2 (1 - 1/4) of the dynamic pressure at the throat.
    const area = nozzleBeforeDuct(VALVE, { profile: wider, fanning: 0 }, 10);
    const given = (area / AREA) ** 2 * 0.75;
    expect(area / Math.sqrt(1 - given) / VALVE).toBeCloseTo(1, 4);
  });

  it('never takes more than half of the depression, whatever port is stated', () => {
    const narrow = [
      { x: 0, area: 2e-4 },
      { x: LENGTH, area: 2e-4 },
    ];
    const area = nozzleBehindDuct(VALVE, { profile: narrow, fanning: FANNING }, 10);
    expect(area / VALVE).toBeCloseTo(Math.SQRT2, 3);
    expect(nozzleBeforeDuct(VALVE, { profile: narrow, fanning: FANNING }, 10) / VALVE).toBeCloseTo(
      Math.SQRT2,
      3,
    );
  });
});

describe('the mouth of a runner', () => {
  const runner = {
    runnerLength: 0.15,
    portLength: 0.13,
    entryArea: 2e-3,
    exitArea: 1.6e-3,
    portArea: 1.6e-3,
  };
  const duct = { profile: intakeProfile(runner), fanning: FANNING };

  it('loses what friction leaves of the manifold: the more friction, the wider', () => {
    const mouth = (fanning: number): number => runnerMouth(0.9 * VALVE, { ...duct, fanning }, VALVE).area;
    expect(mouth(0.004)).toBeGreaterThan(mouth(0));
    // Without friction, slow: 1/area^2 = 1/mouth^2 - 1/entry^2 in series with the valve makes nine tenths.
    const slow = runnerMouth(0.9 * VALVE, { ...duct, fanning: 0 }, VALVE, 10).area;
    const jet = 1 / Math.sqrt(1 / slow ** 2 - 1 / 2e-3 ** 2);
    expect(seriesArea(VALVE, jet) / VALVE).toBeCloseTo(0.9, 4);
  });

  it('is as wide as the runner where friction alone takes more than was lost; the walls are then smoother', () => {
    const valve = nozzleBehindDuct(VALVE, duct);
    const mouth = runnerMouth(VALVE, { ...duct, fanning: 3 * FANNING }, valve);
    expect(mouth.area).toBe(2e-3);
    // What friction is left takes what the valve was given for it, a third.
    expect(mouth.friction).toBeCloseTo(1 / 3, 2);
  });
});
