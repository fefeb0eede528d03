/** A 540 in3 eight with figures near those of tests/data/engines/carburetor-limited-540.yaml, complete, for tests that need a whole engine. */
import type { Combination } from '../../src/combination/combination.ts';
import { fuelNamed } from '../../src/gas/fuels.ts';
import { cfmToArea } from './units.ts';

const IN = 0.0254;
const IN2 = IN * IN;
const bore = 4.5 * IN;
const stroke = 4.25 * IN;
const swept = (Math.PI / 4) * bore * bore * stroke;
const primary = (Math.PI / 4) * (2.125 * IN - 2 * 0.049 * IN) ** 2;

export function bigBlock(change: Partial<Combination> = {}): Combination {
  return {
    name: 'test big block',
    block: {
      cylinders: 8,
      bore,
      stroke,
      rodLength: 6.385 * IN,
      firingOrder: [1, 8, 4, 3, 6, 5, 7, 2],
      firingAngles: [0, 630, 270, 180, 450, 360, 540, 90],
    },
    chamber: {
      shape: 'wedge',
      plug: 'side',
      squishArea: 0.08,
      squishHeight: 1.4e-3,
      clearanceVolume: swept / (11.3 - 1),
      compressionRatio: 11.3,
    },
    intake: {
      valves: 1,
      valveDiameter: 2.3 * IN,
      stemDiameter: 0.342 * IN,
      flow: {
        lift: [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7].map((l) => l * IN),
        area: [80, 155, 225, 290, 345, 390, 415].map((cfm) => cfmToArea(cfm)),
        reverseRatio: 0.9,
        measuredTo: 0.7 * IN,
      },
      portLength: 5.5 * IN,
      portArea: 3.2 * IN2,
      lobe: {
        kind: 'card',
        points: [
          { duration: 306, lift: 0.02 * IN },
          { duration: 275, lift: 0.05 * IN },
          { duration: 195, lift: 0.2 * IN },
        ],
        maxLift: 0.42 * IN,
      },
      centreline: 108,
      rockerRatio: 1.7,
      lash: 0.018 * IN,
      deflection: 0.01 * IN,
    },
    exhaust: {
      valves: 1,
      valveDiameter: 1.88 * IN,
      stemDiameter: 0.342 * IN,
      flow: {
        lift: [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7].map((l) => l * IN),
        area: [65, 125, 180, 225, 262, 285, 300].map((cfm) => cfmToArea(cfm)),
        reverseRatio: 0.9,
        measuredTo: 0.7 * IN,
      },
      portLength: 4 * IN,
      portArea: 2.6 * IN2,
      lobe: {
        kind: 'card',
        points: [
          { duration: 320, lift: 0.02 * IN },
          { duration: 288, lift: 0.05 * IN },
          { duration: 205, lift: 0.2 * IN },
        ],
        maxLift: 0.42 * IN,
      },
      centreline: 116,
      rockerRatio: 1.7,
      lash: 0.018 * IN,
      deflection: 0.01 * IN,
    },
    induction: {
      kind: 'carburetor',
      count: 1,
      meteringArea: cfmToArea(1050, 1.5 * 13.6),
      airCleanerArea: null,
      plenums: [{ volume: 2.5e-3, cylinders: [1, 2, 3, 4, 5, 6, 7, 8] }],
      runner: {
        length: 5.5 * IN,
        lengthMultiplier: 1,
        entryArea: 3.6 * IN2,
        exitArea: 3.2 * IN2,
        mouthArea: 3.4 * IN2,
        wallTemperature: 330,
      },
      injection: 'carburetor',
      evaporation: 0.35,
      vapour: 0.6,
      heating: 3,
    },
    exhaustSystem: {
      primary: { length: 32 * IN, area: primary, wallTemperature: 750 },
      collectors: {
        groups: [
          [1, 3, 5, 7],
          [2, 4, 6, 8],
        ],
        mergeVolume: 0.8e-3,
        length: 18 * IN,
        area: (Math.PI / 4) * (3.5 * IN) ** 2,
        wallTemperature: 700,
      },
      outletArea: 0.95 * (Math.PI / 4) * (3.5 * IN) ** 2,
      returned: 0.5,
    },
    fuel: fuelNamed('race-110'),
    lambda: 0.87,
    burn: {
      timing: { mode: 'best-torque' },
      durationMultiplier: 1,
      octaneOffset: 0,
      heard: [],
      duration: null,
      efficiency: 0.97,
    },
    walls: { model: 'woschni', multiplier: 1, head: 470, piston: 500, liner: 410 },
    friction: {
      valvetrain: 'roller-lifter',
      multiplier: 1,
      camBearings: 5,
      accessories: false,
      driveRatio: 1,
      mainBearings: 5,
      mainDiameter: 2.75 * IN,
      mainLength: 1 * IN,
      rodDiameter: 2.2 * IN,
      rodLength: 0.9 * IN,
    },
    weather: { pressure: 101_325, temperature: 288.7, vapourPressure: 0 },
    correction: 'J607',
    units: 'trade',
    limits: { octaneMargin: null, pistonSpeed: null, valveLift: null, redline: null },
    ratedSpeed: null,
    calibration: null,
    assumed: [],
    warnings: [],
    ...change,
  };
}
