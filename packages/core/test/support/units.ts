/** Effective area [m2] of a flow in cfm at a depression in inH2O: air at 101 325 Pa and 293.15 K, compressible nozzle law. */
export function cfmToArea(cfm: number, inH2O = 28): number {
  const p0 = 101_325;
  const RT = 287.05 * 293.15;
  const pr = (p0 - inH2O * 249.089) / p0;
  const psi = Math.sqrt(7 * (pr ** (2 / 1.4) - pr ** (2.4 / 1.4)));
  return (cfm * 4.719474e-4 * (p0 / RT)) / ((p0 / Math.sqrt(RT)) * psi);
}
