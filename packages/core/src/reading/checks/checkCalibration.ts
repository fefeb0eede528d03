/** Whether a calibration's correlations fit its knobs. */
import type { PartialFile } from '../schema/combinationFile.ts';
import type { Report } from './report.ts';

/** Rounding of what was written [-]. */
const SLACK = 1e-6;

export function checkCalibration({ calibration }: PartialFile, report: Report): void {
  if (calibration === undefined) return;
  const { knobs, correlation } = calibration;
  const fields = knobs.map((knob) => knob.field);
  if (new Set(fields).size < fields.length) {
    report.problem('calibration.knobs', 'calibration-knobs', 'names a field twice');
  }
  const square =
    correlation.length === knobs.length && correlation.every((row) => row.length === knobs.length);
  if (!square) {
    const message = `needs ${knobs.length} rows of ${knobs.length} numbers, one for each knob`;
    report.problem('calibration.correlation', 'calibration-correlation', message);
    return;
  }
  const sound = correlation.every((row, i) =>
    row.every((r, j) => Math.abs(r - (i === j ? 1 : correlation[j][i])) <= SLACK),
  );
  if (!sound) {
    const message = 'must be the same above and below a diagonal of ones';
    report.problem('calibration.correlation', 'calibration-correlation', message);
  }
}
