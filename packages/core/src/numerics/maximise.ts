/** Maximum of a smooth function of one variable. */
import { DomainError } from '../base/errors.ts';

export interface Maximum {
  readonly x: number;
  readonly value: number;
  readonly evaluations: number;
}

/** Golden section, (3 - sqrt 5) / 2. */
const GOLDEN = (3 - Math.sqrt(5)) / 2;

/**
 * Largest value of `f` in [low, high], to `tolerance` in x: parabolic steps guarded by the golden section.
 *
 * @see Brent, Algorithms for Minimization without Derivatives (1973), ch. 5
 * @throws {@link DomainError} if the interval or the tolerance is not positive
 */
export function maximise(f: (x: number) => number, low: number, high: number, tolerance: number): Maximum {
  if (!(high > low)) throw new DomainError('high', high, `above low = ${low}`);
  if (!(tolerance > 0)) throw new DomainError('tolerance', tolerance, 'positive');
  let [a, b] = [low, high];
  let x = a + GOLDEN * (b - a);
  let [w, v] = [x, x];
  let fx = f(x);
  let [fw, fv] = [fx, fx];
  let evaluations = 1;
  let [d, e] = [0, 0];
  for (let i = 0; i < 100; i++) {
    const middle = (a + b) / 2;
    if (Math.abs(x - middle) <= 2 * tolerance - (b - a) / 2) break;
    let golden = true;
    if (Math.abs(e) > tolerance) {
      const r = (x - w) * (fx - fv);
      let q = (x - v) * (fx - fw);
      let p = (x - v) * q - (x - w) * r;
      q = 2 * (q - r);
      if (q > 0) p = -p;
      q = Math.abs(q);
      const before = e;
      e = d;
      if (Math.abs(p) < Math.abs((q * before) / 2) && p > q * (a - x) && p < q * (b - x)) {
        d = p / q;
        if (x + d - a < 2 * tolerance || b - x - d < 2 * tolerance) d = x < middle ? tolerance : -tolerance;
        golden = false;
      }
    }
    if (golden) {
      e = x < middle ? b - x : a - x;
      d = GOLDEN * e;
    }
    const u = x + (Math.abs(d) >= tolerance ? d : d > 0 ? tolerance : -tolerance);
    const fu = f(u);
    evaluations++;
    if (fu >= fx) {
      if (u < x) b = x;
      else a = x;
      [v, fv, w, fw, x, fx] = [w, fw, x, fx, u, fu];
    } else {
      if (u < x) a = u;
      else b = u;
      if (fu >= fw || w === x) [v, fv, w, fw] = [w, fw, u, fu];
      else if (fu >= fv || v === x || v === w) [v, fv] = [u, fu];
    }
  }
  return { x, value: fx, evaluations };
}
