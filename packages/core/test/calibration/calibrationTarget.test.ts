import { describe, expect, it } from 'vitest';
import { forecastOf } from '../../src/calibration/aimedFigures.ts';
import { dayOf } from '../../src/calibration/dayOfPulls.ts';
import { peakTarget } from '../../src/calibration/peakTarget.ts';
import { sheetTarget } from '../../src/calibration/sheetTarget.ts';
import type { CorrectionStandard, Weather } from '../../src/combination/running.ts';
import type { DynoSheet } from '../../src/dyno/dynoSheet.ts';
import type { Curve } from '../../src/forecast/curve.ts';
import { sheetOf } from '../support/knobResponse.ts';

const HIGH: Weather = { pressure: 100_000, temperature: 290, vapourPressure: 0 };
const LOW: Weather = { pressure: 98_000, temperature: 300, vapourPressure: 1000 };
const RPM = [3000, 4000, 5000];

/** Observed torque of an engine that follows density and the root of temperature exactly: 400 N m at 100 kPa and 300 K. */
function observed({ pressure, vapourPressure, temperature }: Weather): number {
  return 400 * ((pressure - vapourPressure) / 1e5) * Math.sqrt(300 / temperature);
}

/** Pulls of that engine in several airs; J607 divides the very same two influences out. */
function pulls(airs: readonly Weather[], standard: CorrectionStandard): DynoSheet {
  const factor = ({ pressure, vapourPressure, temperature }: Weather): number =>
    standard === 'none'
      ? 1
      : (101_320.7 / (pressure - vapourPressure)) * Math.sqrt(temperature / (519.67 / 1.8));
  const sheet = sheetOf(airs.map((air) => RPM.map((rpm) => [rpm, observed(air) * factor(air)] as const)));
  return {
    ...sheet,
    standard,
    pulls: sheet.pulls.map((pull, i) => ({ ...pull, weather: airs[i] })),
  };
}

function curveIn(air: Weather): Curve {
  return { points: RPM.map((rpm) => ({ rpm, torqueNm: observed(air) })) } as unknown as Curve;
}

describe('air of several pulls', () => {
  it('is the mean of their airs, with the factor of that air worked by hand', () => {
    const { weather, factor } = dayOf(pulls([HIGH, LOW], 'J607').pulls, 'J607');
    expect(weather).toEqual({ pressure: 99_000, temperature: 295, vapourPressure: 500 });
    // 101.3207 kPa / 98.5 kPa x sqrt(295 K / 288.706 K) = 1.02864 x 1.01084.
    expect(factor).toBeCloseTo(1.0398, 3);
  });

  it.each([['J607'], ['none']] as const)(
    'brings a true forecast to the mean of a hot and a cold day within 0.1 %% (%s), which the air of the first would not',
    (standard) => {
      const target = sheetTarget(pulls([HIGH, LOW], standard));
      if (target.weather === null) throw new Error('no air');
      forecastOf(target, curveIn(target.weather)).forEach((value, i) => {
        expect(Math.abs(value / target.aims[i].measured - 1)).toBeLessThan(1e-3);
      });
      const inFirst = observed(HIGH) / observed(target.weather);
      expect(inFirst - 1).toBeGreaterThan(0.02);
    },
  );

  it('leaves an observed pull without weather as it is printed', () => {
    const sheet = pulls([HIGH, HIGH, HIGH], 'none');
    const unsaid = {
      ...sheet,
      pulls: sheet.pulls.map((pull, i) => (i === 1 ? { ...pull, weather: null } : pull)),
    };
    const { aims, repeatability } = sheetTarget(unsaid);
    expect(aims[0].measured).toBeCloseTo(observed(HIGH), 9);
    expect(repeatability.deviation).toBeLessThan(1e-9);
  });

  it('counts no weather as scatter of the dyno, also where figures are as observed', () => {
    const untouched = (observed(HIGH) / observed(LOW) - 1) / Math.SQRT2;
    // J1349 takes off 1.18 times what this engine has of weather, and so leaves 0.18 of it.
    expect(sheetTarget(pulls([HIGH, LOW], 'none')).repeatability.deviation / untouched).toBeCloseTo(0.18, 1);
    expect(sheetTarget(pulls([HIGH, LOW], 'J607')).repeatability.deviation).toBeLessThan(0.001);
  });
});

describe('peaks to calibrate on', () => {
  it.each([
    ['peaks', null, null],
    ['torqueNm', { torqueNm: 0, rpm: 4000 }, null],
    ['torqueNm', { torqueNm: Number.NaN, rpm: 4000 }, null],
    ['powerKw', null, { powerKw: -1, rpm: 6000 }],
    ['power peak', { torqueNm: 300, rpm: 5000 }, { powerKw: 150, rpm: 4500 }],
  ] as const)('refuse what no engine has: %s', (parameter, torque, power) => {
    const call = () => peakTarget({ torque, power, standard: 'J607' }, { fromRpm: 2000, toRpm: 6000 });
    expect(call).toThrow(expect.objectContaining({ parameter }));
  });

  it('look on both sides of the one that is known, as far as the other usually stands', () => {
    // Power stands about half as high again as torque, torque at six tenths of power.
    const band = { fromRpm: 2000, toRpm: 7000 };
    const torque = peakTarget({ torque: { torqueNm: 300, rpm: 4000 }, power: null, standard: 'J607' }, band);
    expect([torque.rpm[0], torque.rpm[torque.rpm.length - 1]]).toEqual([3000, 7000]);
    const power = peakTarget({ torque: null, power: { powerKw: 150, rpm: 6000 }, standard: 'J607' }, band);
    expect([power.rpm[0], power.rpm[power.rpm.length - 1]]).toEqual([2500, 7000]);
    expect(power.aims.map(({ kind }) => kind)).toEqual(['power peak', 'power peak speed']);
    const none = peakTarget({ torque: { torqueNm: 300, rpm: null }, power: null, standard: 'J607' }, band);
    expect(none.aims.map(({ kind, rpm }) => [kind, rpm])).toEqual([['torque peak', 2000]]);
  });
});
