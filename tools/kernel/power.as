// Powers, as packages/core/src/numerics/powerNearOne.ts has them.

/** The general power is the script's own, so that both give the same bits; it is seldom asked for. */
@external('env', 'pow')
export declare function pow(x: f64, k: f64): f64;

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
