/** Words for the fields of the sections `limits` and `calibration`. */
import type { WordsOf } from './fieldWords.ts';

export const calibrationWords: WordsOf<'calibration' | 'limits'> = {
  limits: [
    'What compare, sweep, rank and choose must keep to: an answer that breaks one of these is shown with what it breaks, and another is named best. No forecast is moved by them.',
  ],
  'limits.octaneMargin': [
    'Octane numbers, (R + M) / 2, that the fuel must have beyond what best timing asks for; below 0: so many may be missing and are given back in spark. Left out: -4.',
    2,
  ],
  'limits.pistonSpeed': [
    'Highest mean piston speed, at the highest speed looked at or at the redline.',
    '4200 ft/min',
  ],
  'limits.valveLift': ['Largest valve lift, lash taken off: by springs, retainers or clearance.', '0.600 in'],
  'limits.redline': [
    'Highest engine speed: an engine must make its highest power at or below it.',
    '6800 rpm',
  ],
  calibration: ['Written by a calibration: how sure the fitted fields are.'],
  'calibration.sheets': ['Dyno sheets it was fitted to.', ['pulls.csv']],
  'calibration.knobs': [
    'Fields that were fitted.',
    [{ field: 'friction.multiplier', value: 0.95, spread: 0.06 }],
  ],
  'calibration.knobs.field': ['Field that was fitted; its value stands in its own place too.'],
  'calibration.knobs.value': ['Value the fit left.', 0.97, '97.2 %'],
  'calibration.knobs.spread': ['One standard deviation left after the fit.', 0.02, '0.8 %'],
  'calibration.correlation': [
    'Correlation of what is left uncertain, rows and columns in the order of the knobs.',
    [[1]],
  ],
  'calibration.dyno': ['Level of the dyno; moves no forecast, only what is compared with its sheets.'],
  'calibration.dyno.reads': ['What the dyno shows over what the engine gives.', 1.015],
  'calibration.dyno.spread': ['One standard deviation left after the fit.', 0.02],
  'calibration.doubt': [
    'Why the fit is doubtful, which was accepted all the same.',
    'it would need intake flow above +20 %',
  ],
};
