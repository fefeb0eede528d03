import { describe, expect, it } from 'vitest';
import type { MarchedPoint } from '../../src/forecast/curve.ts';
import { indicatedEfficiency, oddFigures } from '../../src/forecast/oddFigures.ts';
import { altered, curveOf } from '../studies/fakeCurves.ts';
import { bigBlock } from '../support/bigBlock.ts';

/** A point as a full-throttle engine has it, with some figures changed. */
function pointWith(change: Partial<MarchedPoint>): readonly MarchedPoint[] {
  const sound = {
    volumetricEfficiency: 0.95,
    imepBar: 12,
    pmepBar: -0.5,
    peakPressureBar: 70,
    residualFraction: 0.05,
    chargeTemperatureK: 310,
    exhaustTemperatureK: 1100,
    heatLossFraction: 0.2,
    fuelKgPerH: 150,
  };
  const curve = altered(
    curveOf([5000], () => 500),
    () => ({ ...sound, ...change }),
  );
  return curve.points.filter((point) => point.status !== 'lost');
}

const codes = (change: Partial<MarchedPoint>): readonly string[] =>
  oddFigures(bigBlock(), pointWith(change)).map(({ code }) => code);

describe('figures that no engine shows', () => {
  it('are not seen where there are none', () => expect(codes({})).toEqual([]));

  it.each<[string, Partial<MarchedPoint>, Partial<MarchedPoint>]>([
    ['wall-heat-high', { heatLossFraction: 0.61 }, { heatLossFraction: 0.59 }],
    ['residual-high', { residualFraction: 0.51 }, { residualFraction: 0.49 }],
    ['filling-odd', { volumetricEfficiency: 0.09 }, { volumetricEfficiency: 0.11 }],
    ['filling-odd', { volumetricEfficiency: 1.41 }, { volumetricEfficiency: 1.39 }],
    ['peak-pressure', { peakPressureBar: 151 }, { peakPressureBar: 149 }],
    ['flow-temperature', { chargeTemperatureK: -65 }, { chargeTemperatureK: 205 }],
    ['flow-temperature', { exhaustTemperatureK: 3600 }, { exhaustTemperatureK: 3400 }],
    ['flow-temperature', { exhaustTemperatureK: Number.NaN }, {}],
  ])('are said by a code: %s', (code, odd, sound) => {
    expect(codes(odd)).toEqual([code]);
    expect(codes(sound)).toEqual([]);
  });

  it('name the speeds', () => {
    expect(oddFigures(bigBlock(), pointWith({ residualFraction: 0.7 }))[0].message).toBe(
      'more than half of the charge is burned gas at 5000 rpm: an engine misfires there',
    );
  });
});

describe('the indicated efficiency', () => {
  it('is net work over the heat of the fuel of a cycle', () => {
    const combination = bigBlock();
    const { bore, stroke, cylinders } = combination.block;
    const [point] = pointWith({});
    // 150 kg/h at 5000 rpm are 1 g a cycle of the whole engine.
    const work = 11.5e5 * (Math.PI / 4) * bore * bore * stroke * cylinders;
    expect(indicatedEfficiency(combination, point)).toBeCloseTo(
      work / (1e-3 * combination.fuel.lowerHeatingValue),
      12,
    );
  });

  it('beyond the ideal cycle 1 - r^-0.4 is doubted', () => {
    const combination = bigBlock();
    const [point] = pointWith({});
    const ideal = 1 - combination.chamber.compressionRatio ** -0.4;
    const fuelAt = (share: number) => ({
      fuelKgPerH: (point.fuelKgPerH * indicatedEfficiency(combination, point)) / (share * ideal),
    });
    expect(codes(fuelAt(1.01))).toEqual(['efficiency-high']);
    expect(codes(fuelAt(0.99))).toEqual([]);
  });
});
