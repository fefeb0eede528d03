/** What each cylinder does of what the engine does, where every one of them marched. */
import { BAR } from '../base/constants.ts';
import type { Combination } from '../combination/combination.ts';
import { lambdaOf } from '../combination/lambdaOf.ts';
import type { CylinderTotals } from '../cycle/cycleTotals.ts';
import type { GasTables } from '../gas/gasTables.ts';

/** One cylinder of a point. Torques add up to the engine's; other figures are the cylinder's own. */
export interface CylinderFigures {
  /** Its number, from 1. */
  readonly cylinder: number;
  /** Its relative air-fuel ratio [-]. */
  readonly lambda: number;
  /** Its compression ratio [-]. */
  readonly compressionRatio: number;
  /** Its part of the brake torque, friction shared evenly [N m]. */
  readonly torqueNm: number;
  /** Filling: dry air through its intake valves over what fills its displacement at the air of the day [-]. */
  readonly volumetricEfficiency: number;
  /** Gross indicated, compression and expansion strokes only [bar]. */
  readonly imepBar: number;
  /** Pumping loop [bar]. */
  readonly pmepBar: number;
  /** Highest pressure, absolute [bar]. */
  readonly peakPressureBar: number;
  /** Mass share of burned gas when its intake valve closes [-]. */
  readonly residualFraction: number;
  /** Mean temperature of the flow past its exhaust valves [K]. */
  readonly exhaustTemperatureK: number;
  /** Octane number on the pump, (R + M) / 2, that just does not knock in it at the timing of all [-]. */
  readonly octaneRequired: number;
}

/** What the engine's own figures are made with. */
export interface CylinderShares {
  readonly tables: GasTables;
  /** Swept volume of one cylinder [m3], and dry air that would fill it at ambient density [kg]. */
  readonly swept: number;
  readonly fullAir: number;
  /** Brake torque as shown [N m] of a volume [m3] with such mean pressures [Pa]. */
  readonly torqueOf: (volume: number, indicated: number) => number;
}

/** Figures of each cylinder, in the order of their numbers. `octanes`: what each asks for, (R + M) / 2 [-]. */
export function cylinderFigures(
  combination: Combination,
  cylinders: readonly CylinderTotals[],
  octanes: readonly number[],
  { tables, swept, fullAir, torqueOf }: CylinderShares,
): readonly CylinderFigures[] {
  return cylinders.map((c, i) => ({
    cylinder: i + 1,
    lambda: lambdaOf(combination, i + 1),
    compressionRatio: compressionOf(combination, i, swept),
    torqueNm: torqueOf(swept, (c.closedWork + c.pumpingWork) / swept),
    volumetricEfficiency: (c.freshIn * tables.dryAirFraction) / fullAir,
    imepBar: c.closedWork / swept / BAR,
    pmepBar: c.pumpingWork / swept / BAR,
    peakPressureBar: c.peakPressure / BAR,
    residualFraction: c.residual,
    exhaustTemperatureK: c.exhaustT,
    octaneRequired: octanes[i],
  }));
}

function compressionOf({ chamber }: Combination, index: number, swept: number): number {
  const clearance = chamber.clearances?.[index];
  return clearance === undefined ? chamber.compressionRatio : 1 + swept / clearance;
}
