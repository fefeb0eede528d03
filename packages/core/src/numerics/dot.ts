/** The scalar product of two vectors. */

/** Sum of the products of entries at equal places [product of the units]; both of one length. For inner loops: no guards. */
export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
