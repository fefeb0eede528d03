// A whole step of a network, as packages/core/src/numerics/rungeKutta.ts and takeStep of packages/core/src/cycle/march.ts have it. The numbers
// of a method and of the step at hand come in the order of packages/core/src/network/kernelStep.ts.
import { get, put } from './columns';
import { decode, entries, isSound, keepStarts, raiseFastest, rates, theta } from './network';
import { addScaled, carryOver } from './sums';

/** Where the step begins [s], how long it is [s], the speed [deg/s], where it ends [deg]. */
@inline const FROM = 0;
@inline const SPAN = 1;
@inline const SPEED = 2;
@inline const END = 3;
/** Where the fastest rates belong. */
@inline const FASTEST = 4;
@inline const CARRIED = 5;
@inline const TRIAL = 6;
@inline const STAGES = 7;
/** The first stage's numbers; behind those below its row of the table. */
@inline const ROWS = 8;
@inline const RATES = 0;
@inline const NODE = 1;
@inline const WEIGHT = 2;
@inline const REPEATS = 3;
@inline const TABLE = 4;

/** Advances the decoded state at `y`, decodes it where the step ends, and finds its fastest rates; whether it is one of a gas. */
export function step(plan: usize, method: usize, y: usize): bool {
  const count = entries(plan);
  const stages = <i32>get(method, STAGES);
  const trial = <usize>get(method, TRIAL);
  const h = get(method, SPAN);
  const first = method + (ROWS << 3);
  const each = <usize>(TABLE + stages) << 3;
  rates(plan, y, <usize>get(first, RATES));
  keepStarts(plan);
  for (let i = 1; i < stages; i++) {
    const row = first + <usize>i * each;
    const repeats = get(row, REPEATS) !== 0;
    if (!repeats) memory.copy(trial, y, <usize>count << 3);
    for (let j = repeats ? i - 1 : 0; j < i; j++) {
      const weight = get(row, TABLE + j);
      if (weight !== 0) addScaled(trial, <usize>get(first + <usize>j * each, RATES), h * weight, count);
    }
    put(theta(plan), 0, (get(method, FROM) + get(row, NODE) * h) * get(method, SPEED));
    decode(plan, trial);
    rates(plan, trial, <usize>get(row, RATES));
  }
  finish(method, y, h, count);
  put(theta(plan), 0, get(method, END));
  decode(plan, y);
  const fastest = <usize>get(method, FASTEST);
  put(fastest, 0, 0);
  put(fastest, 1, 0);
  raiseFastest(plan, fastest);
  return isSound(plan);
}

@inline function finish(method: usize, y: usize, h: f64, count: i32): void {
  const stages = <i32>get(method, STAGES);
  const first = method + (ROWS << 3);
  const each = <usize>(TABLE + stages) << 3;
  const carried = get(method, CARRIED);
  if (carried > 0) {
    const last = first + <usize>(stages - 1) * each;
    carryOver(y, <usize>get(method, TRIAL), carried, <usize>get(last, RATES), h * get(last, WEIGHT), count);
    return;
  }
  for (let i = 0; i < stages; i++) {
    const row = first + <usize>i * each;
    addScaled(y, <usize>get(row, RATES), h * get(row, WEIGHT), count);
  }
}
