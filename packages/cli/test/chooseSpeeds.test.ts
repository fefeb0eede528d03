/** Speeds of a study that nobody named, over a band that somebody did. */
import type { Combination } from '@valvetide/core';
import { describe, expect, it } from 'vitest';
import type { Invocation } from '../src/commandSpec.ts';
import { chooseSpeeds } from '../src/commands/chooseSpeeds.ts';

/** Of a command that was given `--band`, and `--rpm` where speeds are named. */
function chosen(band: string, rpm: readonly string[] = []): ReturnType<typeof chooseSpeeds> {
  const flags = {
    text: (name: string) => (name === 'band' ? band : rpm[0]),
    texts: (name: string) => (name === 'rpm' ? rpm : []),
    on: () => false,
    color: undefined,
  };
  return chooseSpeeds({} as Combination, { flags } as unknown as Invocation);
}

describe('chooseSpeeds(combination, invocation)', () => {
  it.each([
    ['4000:4400', [4000, 4050, 4100, 4150, 4200, 4250, 4300, 4350, 4400]],
    ['4000:6000', [4000, 4250, 4500, 4750, 5000, 5250, 5500, 5750, 6000]],
    ['5000:5030', [5000, 5030]],
    ['5000:5000', [5000]],
  ])('covers %s in round steps, eight at the most', (band, rpm) => expect(chosen(band).rpm).toEqual(rpm));

  it('makes no step of its own of less than a quarter of one, and one of more', () => {
    expect(chosen('5000:7120').rpm).toEqual([5000, 5500, 6000, 6500, 7120]);
    expect(chosen('5000:7130').rpm).toEqual([5000, 5500, 6000, 6500, 7000, 7130]);
  });

  it('takes a band that holds one of the named speeds, at its very end too', () => {
    expect(chosen('4000:5000', ['5000:6000:500'])).toMatchObject({
      rpm: [5000, 5500, 6000],
      band: { fromRpm: 4000, toRpm: 5000 },
    });
    for (const beside of ['4000:4999', '6001:7000'])
      expect(() => chosen(beside, ['5000:6000:500'])).toThrow(
        `--band ${beside}: none of the speeds lies in it`,
      );
  });
});
