import { describe, expect, it } from 'vitest';
import { GUIDE, type RatingMethod, rated } from '../physics/ratingEngine.ts';

/** The ends and the middle of the range that the constant is set on. */
const NUMBERS = [80, 90, 100];

/** Octane numbers that the engine asks for beyond those of the fuels that just knock. */
function beyond(method: RatingMethod): readonly number[] {
  return GUIDE[method]
    .filter(([octane]) => NUMBERS.includes(octane))
    .map(([octane, counter]) => rated(method, counter).octane - octane);
}

/** Mean over the range of the parabola through its ends and its middle: the figures bend, and a plain mean would count the ends twice over. */
function meanAlong([first, middle, last]: readonly number[]): number {
  return (first + 4 * middle + last) / 6;
}

describe('the energy at which end gas no longer counts', () => {
  it('is the one that both rating methods ask for together, in the mean from 80 to 100, with the delay as printed', () => {
    const research = beyond('research');
    const motor = beyond('motor');
    const all = JSON.stringify({ research, motor });
    for (const over of [...research, ...motor]) expect(Math.abs(over), all).toBeLessThan(3);
    // A tenth of a MJ/m3 is worth half a number, so that no other figure of two digits is nearer.
    expect(Math.abs(meanAlong(research) + meanAlong(motor)) / 2, all).toBeLessThan(0.25);
  });
});
