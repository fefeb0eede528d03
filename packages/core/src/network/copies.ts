/** Phase-shifted copies of a duct end: what the cylinders that do not march deliver into a shared volume. */

/**
 * What went through one duct end over the last 720 degrees, by bins: what it delivered into its volume, mass [kg],
 * burned mass [kg] and energy [J]; what it drew from there, mass only [kg], since drawn gas has the state of the
 * volume at the time it is drawn; the volume's pressure [Pa]; and the wave sent up the pipes of all copies [Pa]. Amounts, not rates, are kept and handed on, so
 * that the copies move over a cycle exactly the mass that was recorded.
 */
export interface FlowRecord {
  /** Crank angles where bins begin, and 720 where the last ends [deg]. */
  readonly edges: Float64Array;
  /** The bin in which each whole degree lies, to look in first. */
  readonly first: Int32Array;
  readonly mass: Float64Array;
  readonly burned: Float64Array;
  readonly energy: Float64Array;
  readonly drawn: Float64Array;
  readonly pressure: Float64Array;
  readonly sent: Float64Array;
}

/** @param edges - crank angles where bins begin and end [deg], from 0 to 720 */
export function createFlowRecord(edges: Float64Array, pressure: number): FlowRecord {
  const bins = edges.length - 1;
  const first = new Int32Array(721);
  for (let degree = 0, i = 0; degree <= 720; degree++) {
    while (i < bins - 1 && edges[i + 1] <= degree) i++;
    first[degree] = i;
  }
  return {
    edges,
    first,
    mass: new Float64Array(bins),
    burned: new Float64Array(bins),
    energy: new Float64Array(bins),
    drawn: new Float64Array(bins),
    pressure: new Float64Array(bins).fill(pressure),
    sent: new Float64Array(bins),
  };
}

/** Angles that differ by less are the same [deg]. */
const SAME = 1e-9;

/** The same record cut into other bins. */
export function rebinned(record: FlowRecord, edges: Float64Array): FlowRecord {
  const next = createFlowRecord(edges, 0);
  const part = new Float64Array(RECALL_SIZE);
  for (let k = 0; k < edges.length - 1; k++) {
    part[RECALL.from] = edges[k];
    part[RECALL.to] = edges[k + 1];
    recallFlow(record, part);
    next.mass[k] = part[RECALL.mass];
    next.burned[k] = part[RECALL.burned];
    next.energy[k] = part[RECALL.energy];
    next.drawn[k] = part[RECALL.drawn];
    next.pressure[k] = part[RECALL.pressure];
    next.sent[k] = part[RECALL.sent];
  }
  return next;
}

/**
 * What passed between two crank angles [deg]: mass [kg], positive into the volume and negative out of it, burned mass [kg], energy [J],
 * the volume's mean pressure and the wave sent [Pa].
 */
export const PASSED = { from: 0, to: 1, mass: 2, burned: 3, energy: 4, pressure: 5, sent: 6 } as const;
export const PASSED_SIZE = 7;

/** Adds what passed, spread evenly; a bin that is entered anew forgets the cycle before. */
export function recordFlow(record: FlowRecord, passed: Float64Array): void {
  const { edges, first } = record;
  const from = passed[PASSED.from];
  const to = passed[PASSED.to];
  const mass = passed[PASSED.mass];
  let a = from;
  while (a < to - SAME) {
    const turns = 720 * Math.floor((a + SAME) / 720);
    let k = first[Math.max(0, Math.floor(a - turns))];
    while (edges[k + 1] <= a - turns + SAME) k++;
    const b = Math.min(to, turns + edges[k + 1]);
    const share = (b - a) / (to - from);
    const part = (b - a) / (edges[k + 1] - edges[k]);
    if (a - turns - edges[k] < SAME) {
      record.mass[k] = 0;
      record.burned[k] = 0;
      record.energy[k] = 0;
      record.drawn[k] = 0;
      record.pressure[k] = 0;
      record.sent[k] = 0;
    }
    if (mass > 0) {
      record.mass[k] += share * mass;
      record.burned[k] += share * passed[PASSED.burned];
      record.energy[k] += share * passed[PASSED.energy];
    } else {
      record.drawn[k] -= share * mass;
    }
    record.pressure[k] += part * passed[PASSED.pressure];
    record.sent[k] += part * passed[PASSED.sent];
    a = b;
  }
}

/** What passed between two recorded crank angles [deg]: amounts, and means of pressures. */
export const RECALL = {
  mass: 0,
  burned: 1,
  energy: 2,
  drawn: 3,
  pressure: 4,
  sent: 5,
  from: 6,
  to: 7,
} as const;
export const RECALL_SIZE = 8;

/** Works out what passed between the crank angles in `out`. */
export function recallFlow(record: FlowRecord, out: Float64Array): void {
  const from = out[RECALL.from];
  const to = out[RECALL.to];
  out.fill(0, 0, RECALL.from);
  const { edges, first } = record;
  let a = from;
  while (a < to - SAME) {
    const turns = 720 * Math.floor((a + SAME) / 720);
    let k = first[Math.max(0, Math.floor(a - turns))];
    while (edges[k + 1] <= a - turns + SAME) k++;
    const b = Math.min(to, turns + edges[k + 1]);
    const part = (b - a) / (edges[k + 1] - edges[k]);
    out[RECALL.mass] += part * record.mass[k];
    out[RECALL.burned] += part * record.burned[k];
    out[RECALL.energy] += part * record.energy[k];
    out[RECALL.drawn] += part * record.drawn[k];
    const share = (b - a) / (to - from);
    out[RECALL.pressure] += share * record.pressure[k];
    out[RECALL.sent] += share * record.sent[k];
    a = b;
  }
}
