/** The result of a forecast: plain values, ready to print or to send. */
import type { Fidelity } from '../assembly/symmetry.ts';
import type { Assumed, Warning } from '../combination/combination.ts';
import type { CorrectionStandard } from '../combination/running.ts';
import type { CylinderFigures } from './cylinderFigures.ts';

/** What is known of a speed whatever became of its march. */
export interface PointSpeed {
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Mean piston speed [m/s]. */
  readonly meanPistonSpeedMs: number;
  /** Mean inlet Mach index: bore area times mean piston speed over mean effective valve area times sound speed [-]. */
  readonly inletMachIndex: number;
  /** Cycles that were marched. */
  readonly cycles: number;
}

/**
 * A steady full-throttle point with its figures. Torque and power are corrected to the curve's standard; the rest is as
 * observed.
 */
export interface MarchedPoint extends PointSpeed {
  /** `settled`: the cycle repeats within its tolerance; `unsettled`: it did not, and its figures want care. */
  readonly status: 'settled' | 'unsettled';
  /**
   * Of an unsettled speed: one standard deviation of torque from cycle to cycle, of the torque of compression, expansion and gas
   * exchange together [%]. All figures are then means over up to 20 cycles. Absent: settled.
   */
  readonly scatterPct?: number;
  /** Brake torque [N m]. */
  readonly torqueNm: number;
  /** Brake power [kW]. */
  readonly powerKw: number;
  /** Brake torque [lb-ft]. */
  readonly torqueLbFt: number;
  /** Brake power [hp]. */
  readonly powerHp: number;
  /** Filling: dry air that stays or passes through in a cycle, over what fills the displacement at the air of the day [-]. */
  readonly volumetricEfficiency: number;
  /** Gross indicated, compression and expansion strokes only [bar]. */
  readonly imepBar: number;
  /** Pumping loop, negative where it costs work [bar]. */
  readonly pmepBar: number;
  /** Friction, positive [bar]. */
  readonly fmepBar: number;
  /** imep + pmep - fmep, as observed [bar]. */
  readonly bmepBar: number;
  /** Highest pressure in a cylinder, absolute [bar]. */
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
  /** Fuel over brake power, as observed [g/kWh]; 0 where there is no power. */
  readonly bsfcGPerKwh: number;
  /** Humid air through the induction, whole engine [kg/h]. */
  readonly airflowKgPerH: number;
  /** Fuel, whole engine [kg/h]. */
  readonly fuelKgPerH: number;
  /** Spark before firing top centre [deg]. */
  readonly sparkDegBtdc: number;
  /** Half of the fuel burned, after firing top centre [deg]. */
  readonly ca50DegAtdc: number;
  /** 10 to 90 % burned [deg]. */
  readonly burnDurationDeg: number;
  /** Octane number on the pump, (R + M) / 2 of a fuel as sensitive as this one, that just does not knock at this timing [-]. */
  readonly octaneRequired: number;
  /** The same at best-torque timing [-]. */
  readonly octaneAtBestTiming: number;
  /** How much later the burn is than for best torque [deg]. */
  readonly sparkGivenBackDeg: number;
  /** What that costs of brake torque, the exhaust valve taken as shut [%]. */
  readonly torqueGivenBackPct: number;
  /** The end gas ignites by itself on this fuel at this timing. */
  readonly detonates: boolean;
  /** Wall heat of a cycle over fuel energy [-]. */
  readonly heatLossFraction: number;
  /** Mass in less mass out less storage, over mass in [-]. */
  readonly massClosure: number;
  /** First-law imbalance of the whole network over fuel energy [-]. */
  readonly energyClosure: number;
  /** Each cylinder of more than one, where `all` was asked for. */
  readonly cylinders?: readonly CylinderFigures[];
}

/** A speed whose march came to nothing: nothing is known of its cycle. */
export interface LostPoint extends PointSpeed {
  /** No cycle came of the march. */
  readonly status: 'lost';
  /** `lost`: gas outran the steps, also in shorter ones. `too-many-steps`: a part asks for steps so short that a cycle would take too many. */
  readonly code: 'lost' | 'too-many-steps';
  /** Why, one sentence without its full stop. */
  readonly reason: string;
}

/** One speed of a curve: with figures, or lost. */
export type OperatingPoint = MarchedPoint | LostPoint;

/** The highest torque and power of a curve, at its own speeds. */
export interface CurvePeak {
  /** Highest torque, and its speed [1/min]. */
  readonly torque: {
    /** [1/min]. */
    readonly rpm: number;
    /** [N m]. */
    readonly torqueNm: number;
    /** [lb-ft]. */
    readonly torqueLbFt: number;
  };
  /** Highest power, and its speed [1/min]. */
  readonly power: {
    /** [1/min]. */
    readonly rpm: number;
    /** [kW]. */
    readonly powerKw: number;
    /** [hp]. */
    readonly powerHp: number;
  };
}

/** A torque and power curve. */
export interface Curve {
  /** Version of this shape. */
  readonly schemaVersion: 1;
  /** What made it. */
  readonly program: { readonly name: 'valvetide'; readonly version: string };
  /** False where an abort came before the last speed: the points are those that were done. */
  readonly complete: boolean;
  /** Name of the combination. */
  readonly combination: string;
  /** Which cylinders marched. */
  readonly fidelity: Fidelity;
  /** Standard that torque and power are shown by. */
  readonly correction: {
    /** Its name. */
    readonly standard: CorrectionStandard;
    /** Brake torque shown over brake torque observed, by the standard's own formula [-]. */
    readonly factor: number;
  };
  /** One a speed, rising. */
  readonly points: readonly OperatingPoint[];
  /** Of the speeds that were not lost; null where all were. */
  readonly peak: CurvePeak | null;
  /** What the file left out. */
  readonly assumed: readonly Assumed[];
  /** What to know before the figures are trusted. */
  readonly warnings: readonly Warning[];
}
