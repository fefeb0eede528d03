/** Labels under a picture made of letters. */
import { describe, expect, it } from 'vitest';
import { axisLabels } from '../src/render/chartAxes.ts';

/** Labels of speeds from, in steps, under so many columns. */
function under(from: number, step: number, count: number, across: number): string {
  const shown = Array.from({ length: count }, (_, i) => ({
    x: from + i * step,
    label: String(from + i * step),
  }));
  const columnOf = (x: number): number => Math.round(((x - from) / (step * (count - 1))) * (across - 1));
  return axisLabels(shown, 'rpm', across, columnOf);
}

describe('axisLabels(shown, unit, across, columnOf)', () => {
  it('names every speed that has the room, and ends with the last', () => {
    expect(under(4000, 500, 12, 75)).toBe(
      '4000 4500  5000   5500   6000   6500  7000   7500   8000   8500    9500 rpm',
    );
  });

  it('names every second or third of them where they have not, and none between', () => {
    expect(under(4500, 250, 13, 75).split(/ +/u)).toEqual([
      '4500',
      '5000',
      '5500',
      '6000',
      '6500',
      '7000',
      '7500',
      'rpm',
    ]);
    expect(under(1000, 250, 25, 75).split(/ +/u)).toEqual([
      '1000',
      '1750',
      '2500',
      '3250',
      '4000',
      '4750',
      '5500',
      '7000',
      'rpm',
    ]);
  });

  it('ends, however narrow', () => {
    expect(under(1000, 250, 25, 12)).toBe('    7000 rpm');
    expect(axisLabels([{ x: 5000, label: '5000' }], 'rpm', 20, () => 0)).toBe('            5000 rpm');
  });
});
