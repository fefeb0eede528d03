/** Friction that goes with the peak pressure of the cycle. */

/**
 * Share of the peak pressure that rubbing takes as mean effective pressure [-]: gas behind the rings and load on the
 * bearings.
 *
 * Source: Chen and Flynn, SAE 650733 (1965), third term of fmep = 0.137 bar + 0.005 pmax + 0.162 Sp (from memory), found on
 * a single-cylinder diesel; fits to spark-ignition engines give 0.004 to 0.006 (from memory).
 */
export const PEAK_PRESSURE_SHARE = 0.005;

/**
 * Friction mean effective pressure that a peak pressure makes [Pa]. For differences between timings of one engine: the whole
 * of its friction comes from the component model, which does not know the timing.
 *
 * It is one of the two reasons why best torque is found with half the charge burned some degrees after top centre, wall
 * heat being the other (Beccari, Beccari and Pipitone, J. Eng. Gas Turbines Power 132 (2010) 032802).
 *
 * @param peakPressure - [Pa]
 */
export function peakPressureFriction(peakPressure: number): number {
  return PEAK_PRESSURE_SHARE * peakPressure;
}
