/** What a ranking may be asked besides its changes. */

import type { Fidelity } from '../assembly/symmetry.ts';
import type { Dyno } from '../dyno/dynoResolution.ts';
import type { SpeedBand } from '../forecast/band.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import type { StudyControl } from '../studies/job.ts';
import type { Budget } from './bestSubset.ts';

/** What to rank by, and with what means. */
export interface RankOptions extends StudyControl {
  /** Default the band of an inspection. */
  readonly band?: SpeedBand;
  /** Speeds of the gains [1/min], rising; default five over the band, and beyond it where the engine's own band reaches further. */
  readonly rpm?: readonly number[];
  /** What may be spent. */
  readonly budget?: Budget;
  /** The dyno that is to test; default {@link DYNO}. */
  readonly dyno?: Dyno;
  /** Seed of the draws; default 1. */
  readonly seed?: number;
  /** How many cylinders march; default `representative`. */
  readonly fidelity?: Fidelity;
  /** Text of a sheet by the name used in the file. */
  readonly sheet?: SheetSource | undefined;
}
