/** A step of a network as the kernel takes it: the numbers of a Runge-Kutta method and of the step at hand, in one block. */
import type { Stepper } from '../numerics/rungeKutta.ts';
import { CLOCK } from './clock.ts';

/** Places in the block, in the order of `tools/kernel/step.as`; the rest is the method. */
const STEP = { from: 0, span: 1, speed: 2, end: 3 } as const;
const HEAD = 4;

/** Numbers at most of a method of so many stages. */
export function stepNumbersAtMost(stages: number): number {
  return HEAD + 4 + stages * (HEAD + stages);
}

/** What the kernel has to know of a method, whose vectors stand in its memory as the fastest rates do. */
export function stepNumbers(
  { tableau, stages, repeats, carried, trial }: Stepper,
  fastest: Float64Array,
): number[] {
  const { a, b, c } = tableau;
  const rows = stages.flatMap(({ byteOffset }, i) => [
    ...[byteOffset, c[i], b[i], Number(repeats[i])],
    ...stages.map((_, j) => a[i][j] ?? 0),
  ]);
  const atHand = new Array<number>(HEAD).fill(0);
  return [...atHand, fastest.byteOffset, carried, trial.byteOffset, stages.length, ...rows];
}

/** Writes the step of a {@link CLOCK} into a block of {@link stepNumbers}. */
export function tellStep(block: Float64Array, clock: Float64Array): void {
  const speed = clock[CLOCK.speed];
  block[STEP.from] = clock[CLOCK.from] / speed;
  block[STEP.span] = clock[CLOCK.seconds];
  block[STEP.speed] = speed;
  block[STEP.end] = clock[CLOCK.to];
}
