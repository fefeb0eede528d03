/** How numbers of a random engine are drawn, and the sizes that its parts go by. */
import fc from 'fast-check';

/** A number between two bounds, rounded to a few digits so that a shrunk engine can be read. */
export const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: 1000 }).map((i) => round(min + ((max - min) * i) / 1000));
/** A factor, as likely below 1 as above. */
export const factor = (most: number): fc.Arbitrary<number> =>
  fc.integer({ min: -500, max: 500 }).map((i) => most ** (i / 500));
export const round = (x: number): number => Number(x.toPrecision(4));
export const clamp = (x: number, min: number, max: number): number => round(Math.min(max, Math.max(min, x)));
/** There half of the time. */
export const maybe = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> =>
  fc.option(value, { nil: undefined, freq: 2 });
export const seldom = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> =>
  fc.oneof({ weight: 7, arbitrary: fc.constant(undefined) }, { weight: 1, arbitrary: value });

/** What the sizes of the parts are taken from. */
export interface Base {
  readonly bore: number;
  readonly stroke: number;
  readonly cylinders: number;
  readonly valves: number;
  readonly ratedRpm: number;
}

/** Displacement of a cylinder [cc]. */
export const sweptOf = ({ bore, stroke }: Base): number => (Math.PI / 4) * bore * bore * stroke * 1e-3;
/** Air at rated speed, all cylinders [m3/min]. */
export const airOf = (of: Base): number => (sweptOf(of) * of.cylinders * of.ratedRpm) / 2e6;
