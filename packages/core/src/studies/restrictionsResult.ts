/** The result of a study of restrictions: plain values, ready to print or to send. */
import type { Assumed, Warning } from '../combination/combination.ts';
import type { MarchedPoint } from '../forecast/curve.ts';
import type { LeftOut } from '../forecast/wholeCurve.ts';
import type { StudyBasis } from './comparisonResult.ts';
import type { RestrictionElement } from './freeing.ts';

/** What stands in the way of an engine, and how that changes with candidate changes. */
export interface RestrictionsResult extends StudyBasis {
  /** Version of this shape. */
  readonly schemaVersion: 1;
  /** What made it. */
  readonly program: { readonly name: 'valvetide'; readonly version: string };
  /** False where an abort left something out. */
  readonly complete: boolean;
  /** What free means for each element, in the order of every list of elements. */
  readonly meanings: readonly { readonly element: RestrictionElement; readonly meaning: string }[];
  /** The combination as it stands first, then with each change. */
  readonly states: readonly RestrictionState[];
  /** What the combination leaves out. */
  readonly assumed: readonly Assumed[];
  /** What the forecast of the combination as it stands warns of. */
  readonly warnings: readonly Warning[];
  /** Speeds that were lost, of a state or of a state with an element free: neither they nor means over them are shown. */
  readonly leftOut: readonly LeftOut[];
}

/** One combination and what stands in its way. */
export interface RestrictionState {
  /** Name it goes by. */
  readonly name: string;
  /** `carburetor` or `throttle`: what the element `metering` is here. */
  readonly metering: 'carburetor' | 'throttle';
  /** The speeds that were not lost, rising; null where an abort came first. */
  readonly points: readonly RestrictionPoint[] | null;
  /** Mean torque over the band [N m]; null where an abort came first or a speed was lost. */
  readonly bandTorqueNm: number | null;
  /** What freeing each is worth. */
  readonly elements: readonly ElementGains[];
  /** The element to free first at each of the points. */
  readonly governing: readonly Governing[];
  /** The element to free first over the band; null where that has no mean. */
  readonly bandGoverning: Governing | null;
  /** Warnings that the combination as it stands does not raise, or raises less. */
  readonly cautions: readonly string[];
}

/** One speed of a combination as it is. */
export interface RestrictionPoint {
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Torque [N m]. */
  readonly torqueNm: number;
  /** Power [kW]. */
  readonly powerKw: number;
  /** Whether the cycle settled. */
  readonly status: MarchedPoint['status'];
  /** What each of these takes of the air that a cylinder could hold [%]; below 0: it adds. */
  readonly fillingLoss: {
    /** Plenum below outside pressure. */
    readonly depressionPct: number;
    /** Charge warmer than outside air, heating less evaporation. */
    readonly warmthPct: number;
    /** Burned gas left in the cylinder. */
    readonly residualPct: number;
  };
}

/** What freeing one element alone is worth. Gains of several elements don't add up. */
export interface ElementGains {
  /** What was freed. */
  readonly element: RestrictionElement;
  /** There is nothing to free: no air cleaner, open primaries. The gains are zero. */
  readonly alreadyFree: boolean;
  /** By speed, those left out that either curve lost; null where an abort came first. */
  readonly byRpm: readonly SpeedGain[] | null;
  /** Over the band; null where an abort came first or either curve lost a speed. */
  readonly band: ElementGain | null;
}

/** Torque more than now; below 0, the element's waves are worth more than it costs. */
export interface ElementGain {
  /** Torque more than now [N m]. */
  readonly torqueNm: number;
  /** The same [%]. */
  readonly torquePct: number;
}

/** The gain at one speed. */
export interface SpeedGain extends ElementGain {
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** Whether the freed engine's cycle settled. */
  readonly status: MarchedPoint['status'];
}

/** The element in the way of air or exhaust that gains most; null where none gains 0.3 %. */
export interface Governing {
  /** Null for the band. */
  readonly rpm: number | null;
  /** What to free first. */
  readonly element: RestrictionElement | null;
  /** Torque it gains [%]. */
  readonly torquePct: number;
  /** The next best, and what it gains. */
  readonly second: RestrictionElement | null;
  /** Torque that gains [%]; 0 where there is none. */
  readonly secondPct: number;
}
