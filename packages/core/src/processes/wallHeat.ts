/** Heat transfer coefficients between cylinder gas and walls: Woschni, Hohenberg, Annand. */

/** Woschni's factor of mean piston speed during gas exchange [-]. */
export const WOSCHNI_C1_GAS_EXCHANGE = 6.18;

/** Woschni's factor of mean piston speed while the valves are shut [-]. */
export const WOSCHNI_C1_CLOSED = 2.28;

/** Woschni's combustion factor while burning and expanding [m/(s K)]; zero before. */
export const WOSCHNI_C2 = 3.24e-3;

/**
 * Gas velocity of Woschni's correlation [m/s]: C1 Sp + C2 Vd Tr / (pr Vr) (p - pm).
 *
 * Source: Woschni, SAE 670931 (1967), with 6.18 for gas exchange, 2.28 for the closed cycle, 3.24e-3 m/(s K) for
 * combustion and expansion, as given by Heywood, Internal Combustion Engine Fundamentals (1988), eq. 12.18. Never below
 * the piston's share, also where the pressure falls under the motored one. No inner checks.
 *
 * @param c1 - {@link WOSCHNI_C1_GAS_EXCHANGE} or {@link WOSCHNI_C1_CLOSED} [-]
 * @param pistonSpeed - mean piston speed [m/s]
 * @param c2 - {@link WOSCHNI_C2} or zero [m/(s K)]
 * @param sweptVolume - of one cylinder [m3]
 * @param referenceT - temperature at a reference instant, usually intake valve closing [K]
 * @param referencePV - pressure times volume at that instant [J]
 * @param excess - pressure above the motored one at this angle [Pa]
 */
export function woschniVelocity(
  c1: number,
  pistonSpeed: number,
  c2: number,
  sweptVolume: number,
  referenceT: number,
  referencePV: number,
  excess: number,
): number {
  return c1 * pistonSpeed + (excess > 0 ? ((c2 * sweptVolume * referenceT) / referencePV) * excess : 0);
}

/** Motored pressure by a polytrope from the reference instant [Pa]: pr (Vr / V)^n. */
export function motoredPressure(referenceP: number, referenceV: number, V: number, exponent: number): number {
  return referenceP * (referenceV / V) ** exponent;
}

/** Usual exponent of {@link motoredPressure} [-]: air losing some heat (Heywood, 1988, section 9.2.2: about 1.3; from memory). */
export const MOTORED_EXPONENT = 1.32;

/**
 * Woschni's coefficient in its original form, the default here [W/(m2 K)]: 129.8 B^-0.2 p^0.8 T^-0.53 w^0.8, p in bar.
 *
 * Source: Woschni, SAE 670931 (1967), printed there as 110 kcal/(m2 h K) with p in kgf/cm2 (from memory), which is 129.8
 * here by arithmetic. The constant was fitted to measured heat together with the exponent -0.53.
 *
 * @param bore - [m]
 * @param p - [Pa]
 * @param T - mean gas temperature [K]
 * @param w - {@link woschniVelocity} [m/s]
 */
export function woschniOriginal(bore: number, p: number, T: number, w: number): number {
  // One exponential and three logarithms: a third of the time of three powers.
  return 129.8 * Math.exp(0.8 * Math.log(p * 1e-5 * w) - 0.2 * Math.log(bore) - 0.53 * Math.log(T));
}

/**
 * Hohenberg's coefficient [W/(m2 K)]: 129.8 V^-0.06 p^0.8 T^-0.4 (Sp + 1.4)^0.8, p in bar, V the cylinder's volume now.
 *
 * Source: Hohenberg, SAE 790825 (1979), found on diesel engines; also printed with 130. The same in all strokes.
 */
export function hohenberg(V: number, p: number, T: number, pistonSpeed: number): number {
  return 129.8 * V ** -0.06 * (p * 1e-5 * (pistonSpeed + 1.4)) ** 0.8 * T ** -0.4;
}

/** Annand's convective factor [-]: 0.35 to 0.8 rising with charge motion; the middle of the lower half is usual for spark ignition. */
export const ANNAND_A = 0.49;

/** Stefan-Boltzmann constant [W/(m2 K4)], exact to the digits shown since 2019 (CODATA 2018). */
export const STEFAN_BOLTZMANN = 5.670374419e-8;

/** Annand's radiation factor for spark ignition while burning and expanding [W/(m2 K4)]; zero in the other strokes. */
export const ANNAND_C: number = 0.075 * STEFAN_BOLTZMANN;

/**
 * Annand's coefficient with radiation [W/(m2 K)]: a k / B (rho Sp B / mu)^0.7 + c (T^4 - Tw^4) / (T - Tw).
 *
 * Source: Annand, Proceedings of the Institution of Mechanical Engineers 177 (1963) 973. The radiation is written out as
 * c (T^2 + Tw^2)(T + Tw), which is the same and has no hole at T = Tw.
 *
 * @param conductivity - of the gas [W/(m K)]
 * @param viscosity - of the gas [Pa s]
 * @param density - of the gas [kg/m3]
 * @param a - {@link ANNAND_A} [-]
 * @param c - {@link ANNAND_C} or zero [W/(m2 K4)]
 */
export function annand(
  bore: number,
  pistonSpeed: number,
  density: number,
  viscosity: number,
  conductivity: number,
  T: number,
  wallT: number,
  a: number,
  c: number,
): number {
  const reynolds = (density * pistonSpeed * bore) / viscosity;
  return ((a * conductivity) / bore) * reynolds ** 0.7 + c * (T * T + wallT * wallT) * (T + wallT);
}
