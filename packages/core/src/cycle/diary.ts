/** What is noted of a cylinder at its own events. */
import { ZERO } from '../base/zero.ts';

/** What is known of a cylinder from its events of the last 720 degrees. */
export interface CylinderDiary {
  /** Piston work up to the bottom centres before and after firing [J], running totals. */
  workBeforeCompression: number;
  workAfterExpansion: number;
  /** Work of the last compression and expansion, and of the last gas exchange [J]. */
  closedWork: number;
  pumpingWork: number;
  /** Mass and burned share when the intake valve closed [kg], [-]. */
  trappedMass: number;
  residual: number;
  /** Then, as if all fuel had evaporated [Pa], [K]. */
  closingPressure: number;
  closingTemperature: number;
  /** Internal energy [J] and liquid fuel [kg] when the intake valve closed. */
  closingEnergy: number;
  closingLiquid: number;
  /** Fuel it got then beyond the mean mixture, and what became of its mass where it became gas of that again [kg]. */
  fuelAdded: number;
  massGained: number;
  /** Autoignition integral of octane number 100 when the burn ended. */
  knock: number;
  /** Of the last expansion that ended [Pa], [deg after firing top centre]. */
  peakPressure: number;
  peakAngle: number;
  /** Of the expansion under way. */
  risingPressure: number;
  risingAngle: number;
}

export function emptyDiary(): CylinderDiary {
  return {
    workBeforeCompression: ZERO,
    workAfterExpansion: ZERO,
    closedWork: ZERO,
    pumpingWork: ZERO,
    trappedMass: ZERO,
    residual: ZERO,
    closingPressure: ZERO,
    closingTemperature: ZERO,
    closingEnergy: ZERO,
    closingLiquid: ZERO,
    fuelAdded: ZERO,
    massGained: ZERO,
    knock: ZERO,
    peakPressure: ZERO,
    peakAngle: ZERO,
    risingPressure: ZERO,
    risingAngle: ZERO,
  };
}
