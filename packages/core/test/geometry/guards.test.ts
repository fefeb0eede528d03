/** Figures that no part has, NaN among them, are refused by the name of the one that is wrong before anything is worked out with them. */
import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/base/errors.ts';
import {
  clearanceFromRatio,
  clearanceVolume,
  compressionRatio,
  trappedCompressionRatio,
} from '../../src/geometry/compression.ts';
import {
  defaultIntakeFlow,
  exhaustFromIntake,
  portFactor,
  withPipeStub,
} from '../../src/geometry/defaultFlow.ts';
import {
  areaFromFlow,
  BENCH_AIR,
  flowFromArea,
  incompressibleFlow,
  seriesArea,
} from '../../src/geometry/flowSheet.ts';
import { buildLobe, lobeAngleAt } from '../../src/geometry/lobe.ts';
import { valveEvents, valveLift } from '../../src/geometry/valveLift.ts';
import { lobeDuration } from './lobeMeasures.ts';

const PARTS = {
  chamber: 64e-6,
  dome: 5e-6,
  bore: 0.1,
  deckHeight: 0,
  gasketBore: 0.101,
  gasketThickness: 0.001,
  crevice: 1e-6,
};
const GEAR = { rockerRatio: 1.5, lash: 0.0005, deflection: 0 };
const PORT = { throat: 0.85, smallest: 0.9 };
const POINTS = { lift: [0, 0.01], area: [0, 1e-3] };
const lobe = () =>
  buildLobe({
    kind: 'card',
    points: [
      { lift: 0.00015, duration: 280 },
      { lift: 0.00127, duration: 230 },
    ],
    maxLift: 0.008,
  });
const table = (angle: number[], lift: number[]) => () => buildLobe({ kind: 'table', angle, lift });

const CASES: readonly (readonly [parameter: string, call: (bad: number) => unknown, ...bad: number[]])[] = [
  ['chamber', (chamber) => clearanceVolume({ ...PARTS, chamber }), 0, Number.NaN],
  ['dome', (dome) => clearanceVolume({ ...PARTS, dome }), Number.NaN, Number.POSITIVE_INFINITY, 80e-6],
  ['bore', (bore) => clearanceVolume({ ...PARTS, bore }), 0, Number.NaN],
  ['deckHeight', (deckHeight) => clearanceVolume({ ...PARTS, deckHeight }), Number.NaN],
  ['gasketBore', (gasketBore) => clearanceVolume({ ...PARTS, gasketBore }), -0.1, Number.NaN],
  ['gasketThickness', (gasketThickness) => clearanceVolume({ ...PARTS, gasketThickness }), -1e-3, Number.NaN],
  ['crevice', (crevice) => clearanceVolume({ ...PARTS, crevice }), -1e-6, Number.NaN],
  ['sweptVolume', (swept) => compressionRatio(swept, 1e-4), 0, Number.NaN],
  ['clearance', (clearance) => compressionRatio(1e-3, clearance), 0, Number.NaN],
  ['sweptVolume', (swept) => clearanceFromRatio(swept, 10), 0, Number.NaN],
  ['ratio', (ratio) => clearanceFromRatio(1e-3, ratio), 1, Number.NaN],
  ['clearance', (clearance) => trappedCompressionRatio(1e-3, clearance), 0, Number.NaN],
  ['volumeAtClosing', (volume) => trappedCompressionRatio(volume, 1e-4), 0.9e-4, Number.NaN],
  ['flow', (flow) => areaFromFlow(flow, 7000), -1, Number.NaN],
  ['depression', (depression) => areaFromFlow(0.1, depression), 0, 2e5, Number.NaN],
  ['area', (area) => flowFromArea(area, 7000), -1, Number.NaN],
  ['area', (area) => incompressibleFlow(area, 7000), -1, Number.NaN],
  ['depression', (depression) => incompressibleFlow(1e-3, depression), 0, Number.NaN],
  ['pressure', (pressure) => areaFromFlow(0.1, 7000, { ...BENCH_AIR, pressure }), 0, Number.NaN],
  ['temperature', (temperature) => areaFromFlow(0.1, 7000, { ...BENCH_AIR, temperature }), 0, Number.NaN],
  ['gasConstant', (gasConstant) => areaFromFlow(0.1, 7000, { ...BENCH_AIR, gasConstant }), 0, Number.NaN],
  ['areas', (area) => seriesArea(1e-3, area), 0, Number.NaN],
  ['areas', () => seriesArea(), 0],
  ['valveDiameter', (diameter) => defaultIntakeFlow(diameter, 1, PORT), 0, Number.NaN],
  ['valves', (valves) => defaultIntakeFlow(0.05, valves, PORT), 0, 1.5, Number.NaN],
  ['throat', (throat) => portFactor({ ...PORT, throat }), 0, Number.NaN],
  ['smallest', (smallest) => portFactor({ ...PORT, smallest }), 0, Number.NaN],
  ['intakeDiameter', (diameter) => exhaustFromIntake(POINTS, diameter, 0.04, 1), 0, Number.NaN],
  ['exhaustDiameter', (diameter) => exhaustFromIntake(POINTS, 0.05, diameter, 1), 0, Number.NaN],
  ['valveDiameter', (diameter) => withPipeStub(POINTS, diameter), 0, Number.NaN],
  ['rockerRatio', (rockerRatio) => valveLift(lobe(), { ...GEAR, rockerRatio }, 110), 0, Number.NaN],
  ['lash', (lash) => valveLift(lobe(), { ...GEAR, lash }, 110), -1e-4, 0.02, Number.NaN],
  ['deflection', (deflection) => valveLift(lobe(), { ...GEAR, deflection }, 110), -1e-4, Number.NaN],
  ['centre', (centre) => valveLift(lobe(), GEAR, centre), Number.NaN],
  ['step', (step) => valveLift(lobe(), GEAR, 110, step), 0, 0.7, Number.NaN],
  [
    'lobe',
    (openingHalf) => valveLift({ ...lobe(), openingHalf, closingHalf: 300 }, GEAR, 110),
    500,
    Number.NaN,
  ],
  ['lift', (lift) => valveEvents(valveLift(lobe(), GEAR, 110), lift), -1e-4, Number.NaN],
  ['lift', (lift) => lobeAngleAt(lobe(), lift, 'opening'), -1e-4, Number.NaN],
  ['lift', table([-60, -30, 0, 30, 60], [0, 0.004, 0.008, 0.004]), 0],
  ['angle', table([-60, -30, 0, 30], [0, 0.004, 0.008, 0.004]), 0],
  ['angle', table([-60, -30, 0, 60], [0, 0.004, 0.008, 0]), 0],
  ['lift', table([-60, -30, 0, 30, 60], [0, 0, 0, 0, 0]), 0],
];

describe('a figure that no part has', () => {
  it.each(CASES.map(([parameter, call, ...bad]) => ({ parameter, call, bad })))(
    'is refused as $parameter',
    ({ parameter, call, bad }) => {
      for (const value of bad) {
        let thrown: unknown;
        try {
          call(value);
        } catch (error) {
          thrown = error;
        }
        expect(thrown, `${parameter} of ${value}`).toBeInstanceOf(DomainError);
        if (thrown instanceof DomainError) expect(thrown.parameter).toBe(parameter);
      }
    },
  );
});

describe('a lobe that never rises so far', () => {
  it('has no angle there, and is open for nothing', () => {
    expect(lobeAngleAt(lobe(), 0.0081, 'opening')).toBeNull();
    expect(lobeDuration(lobe(), 0.0081)).toBe(0);
    expect(lobeAngleAt(lobe(), 0.008, 'closing')).toBe(0);
  });

  it('but for its nose may have that away from its zero: the angle is counted from there', () => {
    // A triangle whose top of 8 mm stands 10 deg after zero.
    const lopsided = buildLobe({
      kind: 'table',
      angle: [-60, -25, 10, 45, 80],
      lift: [0, 0.004, 0.008, 0.004, 0],
    });
    expect(lobeAngleAt(lopsided, 0.0079, 'closing')).toBeGreaterThan(10);
  });
});
