/** A number with a fixed count of decimals; never `-0`, never an exponent. */
export function fixed(value: number, decimals = 0): string {
  if (!Number.isFinite(value)) return 'n/a';
  const text = value.toFixed(decimals);
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text;
}
