/** What stands beside a curve where it was asked for: the means over a band, and what a dyno has measured. */
import type { BandMean, ForecastSpread, SpeedBand } from '@valvetide/core';
import type { AgainstMeasured, MeasuredStep } from './againstMeasured.ts';
import { bandText } from './bandText.ts';
import { fixed } from './fixed.ts';
import { plain } from './plain.ts';
import { heldBackLine } from './pullRate.ts';
import { signed } from './signed.ts';
import type { Column } from './table.ts';
import { SHOWN, type UnitSystem } from './units.ts';

/** Speeds that count, with the curve's means over them. */
export interface CountedBand {
  readonly band: SpeedBand;
  readonly mean: BandMean;
  /** Of the sheet over the same speeds; null without one, or where it does not reach all of them. */
  readonly measured: BandMean | null;
}

export interface BesideCurve {
  readonly counted: CountedBand | null;
  readonly measured: AgainstMeasured | null;
  /** What isn't known of it; null where that was not worked out. */
  readonly spread: ForecastSpread | null;
}

export const NOTHING_BESIDE: BesideCurve = { counted: null, measured: null, spread: null };

/** `Mean over 4500 to 7000 rpm: 666 lb-ft, 727 hp; measured 645 lb-ft, 705 hp (forecast +3.2 %).` */
export function bandLine({ band, mean, measured }: CountedBand, units: UnitSystem): string {
  const { torque, torqueUnit, power, powerUnit } = SHOWN[units];
  const means = ({ torqueNm, powerKw }: BandMean): string =>
    `${fixed(torque(torqueNm), 1)} ${torqueUnit}, ${fixed(power(powerKw), 1)} ${powerUnit}`;
  const beside =
    measured === null
      ? ''
      : `; measured ${means(measured)}, the forecast ${signed(100 * (mean.powerKw / measured.powerKw - 1), 1)} % of power`;
  return `Mean ${bandText({ band })}: ${means(mean)}${beside}.`;
}

/** How far the forecast is off the sheet. */
export function measuredLine(
  { sheet, heldBack, bySpeed, meanPct, rootMeanSquarePct }: AgainstMeasured,
  units: UnitSystem,
): string {
  const of = sheet.pulls.length === 1 ? 'one pull' : `mean of ${sheet.pulls.length} pulls`;
  const speeds = bySpeed.length === 1 ? 'one speed' : `${bySpeed.length} speeds`;
  const place =
    sheet.atWheels === true
      ? ' The sheet is at the wheels, where 10 to 16 % less than the engine gives is usual; calibrate tells the two apart.'
      : '';
  const held = heldBackLine(heldBack, units);
  return `Measured: ${plain(sheet.sheet)}, ${of}. The forecast of torque is off by ${fixed(rootMeanSquarePct, 1)} % (root mean square over ${speeds}), ${signed(meanPct, 1)} % in the mean.${place}${held === '' ? '' : ` ${held}`}`;
}

/** Measured and forecast torque at each speed the sheet reaches. */
export function measuredColumns(units: UnitSystem): readonly Column<MeasuredStep>[] {
  const { torque, torqueUnit } = SHOWN[units];
  return [
    { name: 'speed', unit: 'rpm', cell: ({ rpm }) => fixed(rpm) },
    { name: 'measured', unit: torqueUnit, cell: ({ measuredNm }) => fixed(torque(measuredNm), 1) },
    { name: 'forecast', unit: torqueUnit, cell: ({ forecastNm }) => fixed(torque(forecastNm), 1) },
    { name: 'more', unit: torqueUnit, cell: ({ differenceNm }) => signed(torque(differenceNm), 1) },
    { name: 'more', unit: '%', cell: ({ differencePct }) => signed(differencePct, 1) },
  ];
}
