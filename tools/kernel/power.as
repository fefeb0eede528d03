// Powers, exponentials and logarithms, as powerNearOne.ts and expAndLogNearZero.ts of packages/core/src/numerics have them.

/** They are the script's own, so that both give the same bits. */
@external('env', 'pow')
export declare function pow(x: f64, k: f64): f64;
@external('env', 'exp')
export declare function exp(x: f64): f64;
@external('env', 'log')
export declare function log(x: f64): f64;
@external('env', 'sin')
export declare function sin(x: f64): f64;
@external('env', 'cos')
export declare function cos(x: f64): f64;

export function powerNearOne(x: f64, k: f64): f64 {
  if (!(x > 0.8 && x < 1.25 && k > -10 && k < 10)) return pow(x, k);
  const t = (x - 1) / (x + 1);
  const s = t * t;
  const z = 0.25 * k * t * (1 + s * (1.0 / 3) + s * s * (1.0 / 5 + s * (1.0 / 7) + s * s * (1.0 / 9)));
  const zz = z * z;
  let e =
    1 + z + zz * (1.0 / 2 + z * (1.0 / 6)) + zz * zz * (1.0 / 24 + z * (1.0 / 120) + zz * (1.0 / 720 + z * (1.0 / 5040)));
  e *= e;
  e *= e;
  return e * e;
}

export function expLessOne(x: f64): f64 {
  const e = exp(x);
  if (e === 1) return x;
  const less = e - 1;
  return less === -1 || e === Infinity ? less : (less * x) / log(e);
}

export function logOfOneMore(x: f64): f64 {
  const one = 1 + x;
  return one === 1 || one === Infinity ? x : (log(one) * x) / (one - 1);
}
