/** Whether a sheet's power is its torque times its speed. */
import type { DynoRow } from './dynoRows.ts';

/** Room beside the printed digits [-]: the trade's 5252 is rounded, and a row may be a mean over a sweep. */
const SLACK = 1.5e-3;

export interface PowerFault {
  readonly line: number;
  /** Printed power over torque times speed [-]. */
  readonly ratio: number;
}

/**
 * Rows whose power is not torque times speed [kW, N m, 1/min] within what their printed digits allow: half a digit of
 * each of the three, added up, and 0.15 % on top.
 */
export function powerFaults(rows: readonly DynoRow[]): readonly PowerFault[] {
  return rows.flatMap(({ line, rpm, torque, power }) => {
    if (torque === null || power === null) return [];
    const omega = (rpm.value * Math.PI) / 30_000;
    const expected = torque.value * omega;
    const allowed =
      omega * torque.half +
      power.half +
      ((torque.value * Math.PI) / 30_000) * rpm.half +
      SLACK * Math.abs(expected);
    return Math.abs(power.value - expected) <= allowed ? [] : [{ line, ratio: power.value / expected }];
  });
}

/** Ratios that a slip of unit or of column leaves on every row [-]. */
const SLIPS: readonly (readonly [ratio: number, message: string])[] = [
  [1.35582, 'torque looks like lb-ft under a header of Nm'],
  [1 / 1.35582, 'torque looks like Nm under a header of lb-ft'],
  [1 / 0.7457, 'power looks like hp under a header of kW'],
  [0.7457, 'power looks like kW under a header of hp'],
  [1.01387, 'power looks like metric horsepower (PS) under a header of hp'],
  [1 / 1.01387, 'power looks like hp under a header of PS'],
  [1.0401, 'power looks like J607 beside torque of J1349'],
  [0.9546, 'power looks like J1349 beside torque of J607'],
];

/** What one ratio on all rows suggests; null where there is none. */
export function slipOf(faults: readonly PowerFault[], rows: number): string | null {
  if (faults.length < 3 || faults.length < 0.9 * rows) return null;
  const ratios = faults.map((fault) => fault.ratio).sort((a, b) => a - b);
  const middle = ratios[Math.floor(ratios.length / 2)];
  if (!(ratios[ratios.length - 1] - ratios[0] < 0.01 * middle)) return null;
  return SLIPS.find(([ratio]) => Math.abs(middle / ratio - 1) < 0.006)?.[1] ?? null;
}
