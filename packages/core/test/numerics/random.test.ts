import { describe, expect, it } from 'vitest';
import { fnv1a, randomFrom, randomFromState, randomNamed } from '../../src/numerics/random.ts';

describe('randomFromState(state)', () => {
  it('gives the words the reference code of Blackman and Vigna gives from the state 1, 2, 3, 4', () => {
    const { word } = randomFromState([1, 2, 3, 4]);
    // xoshiro128starstar.c 1.1, as printed in the tests of several independent ports.
    const reference = [
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ];
    expect(reference.map(() => word())).toEqual(reference);
  });

  it('turns a pair of words into a pair of normal deviates as Box and Muller do', () => {
    const words = randomFromState([9, 8, 7, 6]);
    const radius = Math.sqrt(-2 * Math.log((words.word() + 1) / 2 ** 32));
    const angle = (2 * Math.PI * words.word()) / 2 ** 32;
    const { normal } = randomFromState([9, 8, 7, 6]);
    expect([normal(), normal()]).toEqual([radius * Math.cos(angle), radius * Math.sin(angle)]);
  });
});

describe('randomFrom(seed)', () => {
  const normals = (seed: number, n: number): number[] => {
    const { normal } = randomFrom(seed);
    return Array.from({ length: n }, normal);
  };

  it('repeats itself for the same seed, and not for the next', () => {
    expect(normals(7, 20)).toEqual(normals(7, 20));
    expect(normals(7, 20)).not.toEqual(normals(8, 20));
  });

  it('gives uniform numbers with mean 1/2 and variance 1/12', () => {
    const { uniform } = randomFrom(0);
    const values = Array.from({ length: 20_000 }, uniform);
    const mean = values.reduce((a, b) => a + b, 0) / values.length;
    const variance = values.reduce((a, b) => a + (b - mean) ** 2, 0) / values.length;
    // Five standard errors of each.
    expect(Math.abs(mean - 1 / 2)).toBeLessThan(5 * Math.sqrt(1 / 12 / 20_000));
    expect(Math.abs(variance - 1 / 12)).toBeLessThan(5 * Math.sqrt(1 / 180 / 20_000));
  });

  it('gives normal deviates with the moments and the tail of the normal distribution', () => {
    const values = normals(3, 40_000);
    const moment = (k: number): number => values.reduce((a, b) => a + b ** k, 0) / values.length;
    const error = 1 / Math.sqrt(values.length);
    expect(Math.abs(moment(1))).toBeLessThan(5 * error);
    expect(Math.abs(moment(2) - 1)).toBeLessThan(5 * Math.sqrt(2) * error);
    expect(Math.abs(moment(4) - 3)).toBeLessThan(5 * Math.sqrt(96) * error);
    // 4.55 % lie beyond two standard deviations.
    const beyond = values.filter((x) => Math.abs(x) > 2).length / values.length;
    expect(Math.abs(beyond - 0.0455)).toBeLessThan(5 * Math.sqrt(0.0455) * error);
  });
});

describe('randomNamed(seed, name)', () => {
  it('hashes names as FNV-1a does', () => {
    // Values of the authors' own test suite, from memory.
    expect([fnv1a(''), fnv1a('a'), fnv1a('foobar')]).toEqual([0x811c9dc5, 0xe40c292c, 0xbf9cf968]);
  });

  it('gives each name under each seed a stream of its own', () => {
    const first = (seed: number, name: string): number => randomNamed(seed, name).word();
    const words = [1, 2].flatMap((seed) => ['cam', 'header', ''].map((name) => first(seed, name)));
    expect(new Set(words).size).toBe(6);
    expect(first(1, 'cam')).toBe(words[0]);
  });
});
