/** The result of a sweep: plain values, ready to print or to send. */
import type { Warning } from '../combination/combination.ts';
import type { BandMean } from '../forecast/band.ts';
import type { Breach } from '../forecast/limits.ts';
import type { LeftOut } from '../forecast/wholeCurve.ts';
import type { SpeedDifference, StudyBasis } from './comparisonResult.ts';

/** A field to vary and the values to give it, as they would stand in a file. */
export interface Variable {
  /** Field of the file, dots between the names. */
  readonly path: string;
  /** In the order to try them; `850 cfm`, or a plain number where the field has no unit. */
  readonly values: readonly (string | number)[];
}

/** One or two fields varied over a grid. */
export interface SweepResult extends StudyBasis {
  /** Version of this shape. */
  readonly schemaVersion: 1;
  /** What made it. */
  readonly program: { readonly name: 'valvetide'; readonly version: string };
  /** False where an abort came before the end: what there is is shown. */
  readonly complete: boolean;
  /** Name of the combination. */
  readonly combination: string;
  /** What was varied, with what the combination has. */
  readonly variables: readonly SweptVariable[];
  /** The combination as it is; null where an abort came first or a speed was lost. */
  readonly baseline: SweepFigures | null;
  /** Every combination of values, the last variable running fastest. */
  readonly points: readonly SweepPoint[];
  /** Highest mean power over the band that breaks no limit; null where there is none. */
  readonly best: SweepBest | null;
  /** Place among the points of the highest mean power, whatever it breaks; null where no point was forecast. */
  readonly highest: number | null;
  /** What the baseline is warned of. */
  readonly warnings: readonly Warning[];
  /** Speeds that were lost, of the baseline or of a point by the name {@link SweepPoint.name}. A point with one has no figures. */
  readonly leftOut: readonly LeftOut[];
}

/** A field that was varied. */
export interface SweptVariable extends Variable {
  /** What the combination has; null where it neither gives nor assumes it. */
  readonly current: string | number | null;
}

/** What a point of the grid comes to. */
export interface SweepFigures {
  /** Means over the band. */
  readonly band: BandMean;
  /** Highest torque and power, and their speeds. */
  readonly peak: {
    readonly torque: { readonly rpm: number; readonly torqueNm: number };
    readonly power: { readonly rpm: number; readonly powerKw: number };
  };
  /** By speed, in the order of `rpm` [N m]. */
  readonly torqueNm: readonly number[];
}

/** One place of a sweep: the values of its variables and what they give. */
export interface SweepPoint {
  /** `exhaust.primary.length 30 in`, every variable with its value. */
  readonly name: string;
  /** One value a variable. */
  readonly values: readonly (string | number)[];
  /** Null where the values don't go together, an abort came first or a speed was lost. */
  readonly figures: SweepFigures | null;
  /** Mean power over the band against the baseline [%]. */
  readonly bandGainPct: number | null;
  /** The speed with the largest loss of torque against the baseline; null where nothing is lost. */
  readonly worstLoss: SpeedDifference | null;
  /** Why there is no engine with these values; null where there is. */
  readonly refused: string | null;
  /** Warnings that the baseline does not raise, or raises less. */
  readonly cautions: readonly string[];
  /** What the fuel or a stated limit forbids of it; empty: it is allowed. */
  readonly breaches: readonly Breach[];
}

/** The place of a sweep with the highest mean over the band. */
export interface SweepBest {
  /** Place among the points. */
  readonly index: number;
  /** One value a variable. */
  readonly values: readonly (string | number)[];
  /** Mean power against the baseline [%]; null where that has no figures. */
  readonly bandGainPct: number | null;
  /** Paths whose best value is the first or last that was tried: more may lie beyond. Of words none is. */
  readonly atEdge: readonly string[];
  /** How far each variable may move from it, but for those whose values are words. */
  readonly flatness: readonly Flatness[];
}

/** How far a variable may move from the best point, the others held, before more than a little is lost. */
export interface Flatness {
  /** Field of the file. */
  readonly path: string;
  /** What counts as a little [%] of the best mean power. */
  readonly withinPct: number;
  /** First value of the flat part. */
  readonly from: string | number;
  /** Last value of the flat part. */
  readonly to: string | number;
}
