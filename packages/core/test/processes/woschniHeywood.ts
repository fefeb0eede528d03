/** The other printed form of Woschni's law, to say how far the two are apart. */

/**
 * Woschni's coefficient as Heywood prints it [W/(m2 K)]: 3.26 B^-0.2 p^0.8 T^-0.55 w^0.8, p in kPa.
 *
 * Source: Heywood (1988), eq. 12.19. Its 3.26 is the 129.8 of `woschniOriginal` for p in kPa, yet its exponent is
 * another, so that it lies 14 % below at combustion temperatures (790 against 915 W/(m2 K) at 30 bar, 1500 K). Kept for
 * comparison: a multiplier only means something with its form.
 */
export function woschniHeywood(bore: number, p: number, T: number, w: number): number {
  return 3.26 * bore ** -0.2 * (p * 1e-3 * w) ** 0.8 * T ** -0.55;
}
