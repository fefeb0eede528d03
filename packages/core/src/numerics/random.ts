/** Seeded random numbers: the same seed gives the same numbers, everywhere. */

/** A stream of random numbers. */
export interface Random {
  /** Whole number from 0 to 2^32 - 1. */
  readonly word: () => number;
  /** From 0 (included) to 1 (excluded), 32 bits. */
  readonly uniform: () => number;
  /** From the normal distribution with mean 0 and standard deviation 1. */
  readonly normal: () => number;
}

const TWO_TO_32 = 2 ** 32;

/** A stream from a seed; any number will do, its fraction and what lies beyond 32 bits is dropped. */
export function randomFrom(seed: number): Random {
  let counter = seed >>> 0;
  const mixed = (): number => {
    counter = (counter + 0x9e3779b9) >>> 0;
    return finalMix(counter);
  };
  return randomFromState([mixed(), mixed(), mixed(), mixed()]);
}

/**
 * A stream of its own for each name under one seed, so that what one name draws does not depend on which others there are.
 */
export function randomNamed(seed: number, name: string): Random {
  return randomFrom((fnv1a(name) ^ finalMix(seed >>> 0)) >>> 0);
}

/** A number of 32 bits for a text: FNV-1a over its UTF-16 units (Fowler, Noll and Vo; RFC 9923). */
export function fnv1a(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}

/**
 * A stream from a whole state, not all of it zero.
 *
 * Words: xoshiro128** 1.1 (Blackman and Vigna, 2018, ACM Trans. Math. Softw. 47, 36, and their reference code).
 * Normal deviates: Box and Muller (1958), Ann. Math. Statist. 29, 610, both of each pair used.
 */
export function randomFromState(state: readonly [number, number, number, number]): Random {
  let [a, b, c, d] = state.map((word) => word >>> 0);
  const word = (): number => {
    const result = Math.imul(rotated(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = rotated(d, 11);
    return result;
  };
  const uniform = (): number => word() / TWO_TO_32;
  let spare: number | null = null;
  const normal = (): number => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    // From above 0 to 1, since the logarithm of 0 is none.
    const radius = Math.sqrt(-2 * Math.log((word() + 1) / TWO_TO_32));
    const angle = 2 * Math.PI * uniform();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  return { word, uniform, normal };
}

function rotated(x: number, by: number): number {
  return (x << by) | (x >>> (32 - by));
}

/** Spreads the bits of a counter over a word: the finaliser of MurmurHash3 (A. Appleby, public domain). */
function finalMix(word: number): number {
  let h = word;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}
