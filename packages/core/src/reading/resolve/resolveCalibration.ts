/** The calibration a file carries, beside the fields it fitted. */
import type { CalibratedKnob, Calibration } from '../../combination/calibration.ts';
import type { CalibratedField } from '../schema/calibratedFields.ts';
import type { CombinationFile } from '../schema/combinationFile.ts';
import type { ResolveContext } from './context.ts';

/** Values are written with so many digits: a larger difference was made by hand [-]. */
const SAME = 1e-4;

export function resolveCalibration({ file, ledger }: ResolveContext): Calibration | null {
  const { calibration } = file;
  if (calibration === undefined) return null;
  const knobs = calibration.knobs.map(({ field, value, spread }): CalibratedKnob => {
    const now = calibratedValue(file, field);
    if (now === undefined || Math.abs(now - value) > SAME * value) {
      const found = now === undefined ? 'is not there any more' : `is ${shown(now)}`;
      ledger.warn('calibration-moved', field, `${found}, the calibration left it at ${shown(value)}`);
    }
    const inPercent = field === 'burn.efficiency';
    const scale = inPercent ? 100 : 1;
    return { path: field, value: value * scale, unit: inPercent ? '%' : '', spread: spread * scale };
  });
  const { sheets, correlation, dyno = null, doubt = null } = calibration;
  if (doubt !== null) {
    ledger.warn('calibration-doubtful', 'calibration', `accepted against a doubt: ${doubt}`);
  }
  return { sheets, knobs, correlation, dyno, doubt };
}

/** What the file states for a field that a calibration may move, in the kept unit. */
export function calibratedValue(file: CombinationFile, field: CalibratedField): number | undefined {
  switch (field) {
    case 'heads.intake.flowMultiplier':
      return file.heads?.intake?.flowMultiplier;
    case 'induction.flowMultiplier':
      return file.induction?.flowMultiplier;
    case 'heat.multiplier':
      return file.heat?.multiplier;
    case 'burn.efficiency':
      return file.burn?.efficiency;
    case 'friction.multiplier':
      return file.friction?.multiplier;
    case 'induction.runner.lengthMultiplier':
      return file.induction?.runner?.lengthMultiplier;
  }
}

function shown(value: number): string {
  return String(Number(value.toPrecision(4)));
}
