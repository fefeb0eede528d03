/** The result of a forecast: plain values, ready to print or to send. */
import type { Assumed, CorrectionStandard, Warning } from '../combination/combination.ts';

/** `representative`: one cylinder marches and stands for the others. `all`: every cylinder marches. */
export type Fidelity = 'representative' | 'all';

/** A steady full-throttle point. Torque and power are corrected to the curve's standard; the rest is as observed. */
export interface OperatingPoint {
  readonly rpm: number;
  readonly torqueNm: number;
  readonly powerKw: number;
  readonly torqueLbFt: number;
  readonly powerHp: number;
  /** Dry air trapped and short-circuited per cycle over swept volume at ambient dry-air density [-]. */
  readonly volumetricEfficiency: number;
  /** Gross indicated, compression and expansion strokes only [bar]. */
  readonly imepBar: number;
  /** Pumping loop, negative where it costs work [bar]. */
  readonly pmepBar: number;
  /** Friction, positive [bar]. */
  readonly fmepBar: number;
  /** imep + pmep - fmep, as observed [bar]. */
  readonly bmepBar: number;
  readonly peakPressureBar: number;
  /** Crank angle of peak pressure after firing top centre [deg]. */
  readonly peakPressureDegAtdc: number;
  /** Mean plenum pressure, absolute [kPa]. */
  readonly manifoldPressureKpa: number;
  /** Depression across carburetor or throttle and air cleaner [inHg]. */
  readonly manifoldVacuumInHg: number;
  /** Mass share of burned gas in the cylinder when the intake valve closes [-]. */
  readonly residualFraction: number;
  /** Mean temperature of the flow past the intake valve [K]. */
  readonly chargeTemperatureK: number;
  /** Mean temperature of the flow past the exhaust valve [K]. */
  readonly exhaustTemperatureK: number;
  readonly bsfcGPerKwh: number;
  /** Humid air through the induction, whole engine. */
  readonly airflowKgPerH: number;
  readonly fuelKgPerH: number;
  /** Spark before firing top centre [deg]. */
  readonly sparkDegBtdc: number;
  readonly ca50DegAtdc: number;
  /** 10 to 90 % burned [deg]. */
  readonly burnDurationDeg: number;
  /** Octane number, (R + M) / 2 of a usual gasoline, that just does not knock at this timing, and at best-torque timing. */
  readonly octaneRequired: number;
  readonly octaneAtBestTiming: number;
  /** Degrees the burn is later than best torque, and what that costs of brake torque, exhaust valve taken as shut. */
  readonly sparkGivenBackDeg: number;
  readonly torqueGivenBackPct: number;
  /** The end gas ignites by itself on this fuel at this timing. */
  readonly detonates: boolean;
  readonly meanPistonSpeedMs: number;
  /** Mean inlet Mach index: bore area times mean piston speed over mean effective valve area times sound speed [-]. */
  readonly inletMachIndex: number;
  /** Wall heat of a cycle over fuel energy [-]. */
  readonly heatLossFraction: number;
  readonly converged: boolean;
  /** The march lost itself, also in shorter steps: no figure of the cycle means anything, and all but `rpm`, piston speed and Mach index are placeholders. */
  readonly lost: boolean;
  readonly cycles: number;
  /** Mass in less mass out less storage, over mass in [-]. */
  readonly massClosure: number;
  /** First-law imbalance of the whole network over fuel energy [-]. */
  readonly energyClosure: number;
}

/** A torque and power curve. */
export interface Curve {
  readonly schemaVersion: 1;
  readonly program: { readonly name: 'valvetide'; readonly version: string };
  readonly combination: string;
  readonly fidelity: Fidelity;
  readonly correction: {
    readonly standard: CorrectionStandard;
    /** Brake torque shown over brake torque observed, by the standard's own formula [-]. */
    readonly factor: number;
  };
  readonly points: readonly OperatingPoint[];
  readonly peak: {
    readonly torque: { readonly rpm: number; readonly torqueNm: number; readonly torqueLbFt: number };
    readonly power: { readonly rpm: number; readonly powerKw: number; readonly powerHp: number };
  };
  readonly assumed: readonly Assumed[];
  readonly warnings: readonly Warning[];
}
