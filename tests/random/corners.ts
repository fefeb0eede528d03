/** Engines at the ends of what a file may say, each with a name; always tried. */
import type { RandomEngine } from './randomEngine.ts';
import { cc, deg, mm, type Section, size } from './sizes.ts';

function engine(rpm: readonly number[], ratedRpm: number, sections: Section): RandomEngine {
  return {
    sections: {
      name: 'corner',
      engine: single(85, 80),
      chamber: { compression: 9.5 },
      heads: { valvesPerCylinder: 2 },
      correction: 'none',
      ...sections,
    },
    rpm,
    ratedRpm,
  };
}

const single = (bore: number, stroke: number, cylinders = 1): Section => ({
  bore: mm(bore),
  stroke: mm(stroke),
  cylinders,
});

const lobe = (at050: number, lobeLift: number): Section => ({
  advertised: deg(at050 + 50),
  checkedAt: mm(0.15),
  at050: deg(at050),
  lobeLift: mm(lobeLift),
});

const share = (percent: number) => size('share', percent);
const celsius = (value: number) => size('temperature', value);

export const CORNERS: Readonly<Record<string, RandomEngine>> = {
  'sixteen cylinders': engine([4500], 6500, {
    engine: {
      ...single(76, 64, 16),
      firingOrder: [1, 16, 3, 14, 5, 12, 7, 10, 9, 8, 11, 6, 13, 4, 15, 2],
    },
  }),
  'a bore of 30 mm at 20 000 rpm': engine([20_000], 18_000, {
    engine: { ...single(30, 26), ratedSpeed: size('speed', 18_000) },
    heads: { valvesPerCylinder: 4 },
  }),
  'a plenum of a tenth of a litre before four cylinders': engine([3000, 6000], 6000, {
    engine: single(80, 80, 4),
    induction: { plenum: cc(100) },
  }),
  'runners of 10 mm': engine([4000, 7000], 6500, { induction: { runner: { length: mm(10) } } }),
  'runners of 1.5 m': engine([2000, 5000], 5000, { induction: { runner: { length: mm(1500) } } }),
  'overlap of more than 120 degrees': engine([1500, 7000], 8500, {
    cam: { separation: deg(98), intake: lobe(290, 8), exhaust: lobe(290, 8) },
    valvetrain: { intakeRatio: 1.4, exhaustRatio: 1.4 },
  }),
  'compression of 5': engine([2500], 4000, { chamber: { compression: 5 } }),
  'compression of 18 on low octane': engine([2500, 6000], 6000, {
    chamber: { compression: 18 },
    fuel: 'pump-87',
  }),
  'methanol at lambda 0.7': engine([4000], 7000, {
    fuel: 'methanol',
    mixture: { lambda: 0.7 },
    chamber: { compression: 14 },
  }),
  'thin cold air, 3000 m up at -30 degC': engine([3500], 6000, {
    weather: { barometer: size('pressure', 70.1), temperature: celsius(-30), humidity: share(80) },
  }),
  'wet air of 45 degC': engine([3500], 6000, {
    weather: { barometer: size('pressure', 101.3), temperature: celsius(45), humidity: share(95) },
  }),
  'a carburetor a tenth of what it should be': engine([2500, 6000], 6000, {
    induction: {
      carburetor: { rating: size('flow', 0.2), barrels: 1, ratedAt: size('pressure', 10.16), count: 1 },
    },
  }),
  'a carburetor ten times what it should be': engine([2500, 6000], 6000, {
    induction: {
      carburetor: { rating: size('flow', 20), barrels: 4, ratedAt: size('pressure', 5.08), count: 1 },
    },
  }),
  'throttles far too small before spacers with holes': engine([2500], 1950, {
    engine: single(110, 160, 2),
    induction: {
      throttle: { diameter: mm(24), count: 2 },
      manifold: 'individual-runner',
      spacer: { kind: 'four-hole', height: mm(10) },
    },
  }),
  'a valve that floods its throat': engine([5000], 6500, {
    cam: { separation: deg(108), intake: lobe(240, 16), exhaust: lobe(240, 16) },
    valvetrain: { intakeRatio: 1, exhaustRatio: 1 },
  }),
  'no pipe behind the exhaust port': engine([3000, 6000], 6000, {
    exhaust: { primary: { inside: mm(38), length: mm(10) }, collector: 'none' },
  }),
  'cylinders that fire at once': engine([4500], 6500, {
    engine: { ...single(72, 70, 2), firingIntervals: [deg(0), deg(720)] },
  }),
  'a merge smaller than a thimble': engine([4000], 6500, {
    engine: single(78, 76, 4),
    exhaust: { collector: { mergeVolume: cc(10), inside: mm(50), length: mm(300) } },
  }),
  'one valve of three': engine([5000], 6500, { heads: { valvesPerCylinder: 3 } }),
  'a speed far below any idle': engine([300], 6000, {}),
};
