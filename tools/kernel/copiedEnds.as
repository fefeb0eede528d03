// What copies of cylinders deliver, as packages/core/src/network/copiedEnds.ts has it; their numbers come in the order of copyNumbers
// there.
import { get, put } from './columns';
import { B, H, P } from './gas';

@inline const SIDE = 0;
@inline const TARGET = 1;
@inline const RATE = 2;
@inline const MEAN = 3;
@inline const AREA = 4;
@inline const OFFSET = 5;
@inline const RETURNED = 6;
@inline const BIAS = 7;

/** Of the rates of all copies together, by number, see `RECALL` of the script. */
@inline const MASS = 0;
@inline const BURNED = 1;
@inline const ENERGY = 2;
@inline const DRAWN = 3;
@inline const PRESSURE = 4;

/** Of a volume's means, by number, see `MEAN` of the script. */
@inline const MEAN_C = 0;
@inline const MEAN_H = 1;
@inline const MEAN_B = 2;

@inline function add(d: usize, i: i32, rate: f64): void {
  put(d, i, get(d, i) + rate);
}

/** Adds what `count` copies deliver, whose blocks stand in `list`, into the rates at `d`. */
export function connectCopies(list: usize, count: i32, d: usize): void {
  for (let j = 0; j < count; j++) {
    const copy = <usize>load<i32>(list + (<usize>j << 2));
    const side = <usize>get(copy, SIDE);
    const rate = <usize>get(copy, RATE);
    const mean = <usize>get(copy, MEAN);
    const admittance = get(copy, AREA) / get(mean, MEAN_C);
    const correction =
      admittance * (get(rate, PRESSURE) - get(side, P) + 2 * get(copy, RETURNED)) - get(copy, BIAS);
    add(d, <i32>get(copy, OFFSET), correction);
    const drawn = get(rate, DRAWN);
    const target = <i32>get(copy, TARGET);
    add(d, target, get(rate, MASS) - drawn + correction);
    add(d, target + 1, get(rate, ENERGY) - drawn * get(side, H) + correction * get(mean, MEAN_H));
    add(d, target + 2, get(rate, BURNED) - drawn * get(side, B) + correction * get(mean, MEAN_B));
  }
}
