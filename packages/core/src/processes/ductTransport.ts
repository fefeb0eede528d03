/** Wall friction and wall heat of gas in ducts. */

/** Reynolds number below which a smooth pipe is laminar [-]. */
const LAMINAR_BELOW = 2300;

/**
 * Fanning friction factor of a smooth pipe [-]: laminar 16 / Re; turbulent by Blasius, 0.0791 Re^-0.25, to Re = 1e5 and
 * within 5 % to 3e5. The larger of the two in between, so that there is no jump. Zero for gas at rest.
 *
 * Source: Blasius (1913), as in any text of fluid mechanics. The factor is wall stress over rho u^2 / 2, a quarter of the
 * Darcy factor.
 */
export function fanningSmooth(reynolds: number): number {
  if (!(reynolds > 0)) return 0;
  const turbulent = 0.0791 / Math.sqrt(Math.sqrt(reynolds));
  if (reynolds > LAMINAR_BELOW) return turbulent;
  return Math.max(16 / reynolds, turbulent);
}

/**
 * Fanning friction factor of a rough pipe in turbulent flow [-], explicit form by Haaland, Journal of Fluids Engineering
 * 105 (1983) 89: 1 / sqrt(4 f) = -1.8 log10((relative roughness / 3.7)^1.11 + 6.9 / Re). For Re from 4000 to 1e8.
 *
 * @param relativeRoughness - roughness over diameter [-]: about 1e-4 drawn tube, 3e-3 a cast port
 */
export function fanningRough(reynolds: number, relativeRoughness: number): number {
  const root = 1.8 * Math.log10((relativeRoughness / 3.7) ** 1.11 + 6.9 / reynolds);
  return 0.25 / (root * root);
}

/** Wall stress against the flow per unit of duct length [N/m], signed against `u`: perimeter f rho u |u| / 2, negated. */
export function wallDrag(fanning: number, density: number, u: number, perimeter: number): number {
  return -0.5 * fanning * perimeter * density * u * Math.abs(u);
}

/**
 * Heat transfer coefficient by Reynolds' analogy [W/(m2 K)]: f / 2 rho |u| cp.
 *
 * Exact for a Prandtl number of one; {@link colburnHeat} carries the correction.
 */
export function reynoldsHeat(fanning: number, density: number, u: number, cp: number): number {
  return 0.5 * fanning * density * Math.abs(u) * cp;
}

/** {@link reynoldsHeat} times Pr^(-2/3) [W/(m2 K)], the analogy of Colburn (1933): 1.27 times it for Pr = 0.7. */
export function colburnHeat(
  fanning: number,
  density: number,
  u: number,
  cp: number,
  prandtl: number,
): number {
  return reynoldsHeat(fanning, density, u, cp) / Math.cbrt(prandtl * prandtl);
}
