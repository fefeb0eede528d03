/** Phase-shifted copies of a duct end: what the cylinders that do not march deliver into a shared volume. */

/**
 * What went through one duct end over the last 720 degrees, by bins: what it delivered into its volume, mass [kg],
 * burned mass [kg] and energy [J]; what it drew from there, mass only [kg], since drawn gas has the state of the
 * volume at the time it is drawn; and the volume's pressure [Pa]. Amounts, not rates, are kept and handed on, so
 * that the copies move over a cycle exactly the mass that was recorded.
 */
export interface FlowRecord {
  /** Crank degrees of one bin, 720 over a whole number. */
  readonly bin: number;
  readonly mass: Float64Array;
  readonly burned: Float64Array;
  readonly energy: Float64Array;
  readonly drawn: Float64Array;
  readonly pressure: Float64Array;
  /** Share of what is newly recorded, the rest being kept from the cycle before [-]. */
  weight: number;
}

/** @param bins - whole number of bins in 720 degrees */
export function createFlowRecord(bins: number, pressure: number): FlowRecord {
  return {
    bin: 720 / bins,
    mass: new Float64Array(bins),
    burned: new Float64Array(bins),
    energy: new Float64Array(bins),
    drawn: new Float64Array(bins),
    pressure: new Float64Array(bins).fill(pressure),
    weight: 1,
  };
}

/** The same record cut into other bins. */
export function rebinned(record: FlowRecord, bins: number): FlowRecord {
  const next = createFlowRecord(bins, 0);
  next.weight = record.weight;
  const part = new Float64Array(RECALL_SIZE);
  for (let k = 0; k < bins; k++) {
    part[RECALL.from] = k * next.bin;
    part[RECALL.to] = (k + 1) * next.bin;
    recallFlow(record, part);
    next.mass[k] = part[RECALL.mass];
    next.burned[k] = part[RECALL.burned];
    next.energy[k] = part[RECALL.energy];
    next.drawn[k] = part[RECALL.drawn];
    next.pressure[k] = part[RECALL.pressure];
  }
  return next;
}

/**
 * What passed between two crank angles [deg]: mass [kg], positive into the volume and negative out of it, burned mass [kg], energy [J],
 * and the volume's mean pressure [Pa].
 */
export const PASSED = { from: 0, to: 1, mass: 2, burned: 3, energy: 4, pressure: 5 } as const;
export const PASSED_SIZE = 6;

/** Adds what passed, spread evenly; a bin entered anew starts from what is kept of the cycle before, see `weight`. */
export function recordFlow(record: FlowRecord, passed: Float64Array): void {
  const { bin, weight } = record;
  const bins = record.mass.length;
  const from = passed[PASSED.from];
  const to = passed[PASSED.to];
  const mass = passed[PASSED.mass];
  let a = from;
  while (a < to - 1e-9) {
    const i = Math.floor(a / bin + 1e-9);
    const b = Math.min(to, (i + 1) * bin);
    const k = ((i % bins) + bins) % bins;
    const share = (weight * (b - a)) / (to - from);
    const part = (weight * (b - a)) / bin;
    if (a - i * bin < 1e-9) {
      record.mass[k] *= 1 - weight;
      record.burned[k] *= 1 - weight;
      record.energy[k] *= 1 - weight;
      record.drawn[k] *= 1 - weight;
      record.pressure[k] *= 1 - weight;
    }
    if (mass > 0) {
      record.mass[k] += share * mass;
      record.burned[k] += share * passed[PASSED.burned];
      record.energy[k] += share * passed[PASSED.energy];
    } else {
      record.drawn[k] -= share * mass;
    }
    record.pressure[k] += part * passed[PASSED.pressure];
    a = b;
  }
}

/** What passed between two recorded crank angles [deg]: amounts, and mean pressure. */
export const RECALL = { mass: 0, burned: 1, energy: 2, drawn: 3, pressure: 4, from: 5, to: 6 } as const;
export const RECALL_SIZE = 7;

/** Works out what passed between the crank angles in `out`. */
export function recallFlow(record: FlowRecord, out: Float64Array): void {
  const from = out[RECALL.from];
  const to = out[RECALL.to];
  out.fill(0, 0, RECALL.from);
  const { bin } = record;
  const bins = record.mass.length;
  let a = from;
  while (a < to - 1e-9) {
    const i = Math.floor(a / bin + 1e-9);
    const b = Math.min(to, (i + 1) * bin);
    const k = ((i % bins) + bins) % bins;
    const part = (b - a) / bin;
    out[RECALL.mass] += part * record.mass[k];
    out[RECALL.burned] += part * record.burned[k];
    out[RECALL.energy] += part * record.energy[k];
    out[RECALL.drawn] += part * record.drawn[k];
    out[RECALL.pressure] += ((b - a) / (to - from)) * record.pressure[k];
    a = b;
  }
}
