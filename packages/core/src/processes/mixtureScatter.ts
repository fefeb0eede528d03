/** What uneven mixture leaves unburned: fuel in the rich parts, oxygen in the lean ones. */
import { DomainError } from '../base/errors.ts';
import { millsRatio, normalDensity } from '../numerics/normal.ts';

/**
 * Standard deviation of the fuel-air equivalence ratio about its mean, between cylinders, cycles and parts of one charge [-].
 *
 * From what stoichiometric engines leave in their exhaust: 0.5 to 0.7 % of oxygen beside as much carbon monoxide (Heywood,
 * Internal Combustion Engine Fundamentals, 1988, section 4.9; from memory), which even mixture would not. A scatter of
 * 0.07 leaves 0.399 x 0.07 of the oxygen, that is 0.6 % of the exhaust.
 */
export const MIXTURE_SCATTER = 0.07;

/**
 * Heat that a charge of scattered equivalence ratio releases over that of an even one [-]: the mean of min(phi', 1) over
 * min(phi, 1), phi' normally distributed about phi.
 *
 * One part of a charge is taken to release heat in proportion to its fuel while lean and to its oxygen while rich, and
 * fuel and oxygen left over not to meet again before they are cold. 1 - 0.399 scatter at phi = 1, one far from it.
 *
 * @param phi - mean fuel-air equivalence ratio [-], positive
 * @throws {@link DomainError} naming the first argument out of range
 */
export function scatterShare(phi: number, scatter: number = MIXTURE_SCATTER): number {
  if (!(phi > 0 && phi < 100)) throw new DomainError('phi', phi, 'positive, below 100');
  if (!(scatter >= 0 && scatter < 0.5)) throw new DomainError('scatter', scatter, 'in [0, 0.5)');
  if (scatter === 0) return 1;
  const z = Math.abs(phi - 1) / scatter;
  return 1 - (scatter * shortfall(z)) / Math.min(phi, 1);
}

/** Mean of max(x - z, 0) over a standard normal x: density(z) - z times the share beyond z. */
function shortfall(z: number): number {
  return normalDensity(z) * Math.max(0, 1 - z * millsRatio(z));
}
