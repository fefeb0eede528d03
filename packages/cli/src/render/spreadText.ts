/** The spread of a forecast in words: how large, of what it is made, and what to measure first. */

import type {
  Assumed,
  Curve,
  ForecastSpread,
  OperatingPoint,
  SpreadParts,
  UnknownWorth,
} from '@valvetide/core';
import type { Detail } from './detail.ts';
import { fixed } from './fixed.ts';
import { linesText } from './notes.ts';
import { plain } from './plain.ts';
import { spreadFigure } from './shortFigure.ts';
import type { Column } from './table.ts';
import { SHOWN, type UnitSystem } from './units.ts';

/** Entries of the handful. */
const HANDFUL = 5;
/** Below this an entry is no reason to measure anything [%]. */
const LITTLE = 0.1;

const share = (value: number): string => `${fixed(100 * value, 1)} %`;

/** `Give or take 27 lb-ft and 45 hp at the peaks, 490 and 305 rpm in their speeds (one standard deviation). ...` */
export function spreadLine({ peak, power, evidence }: ForecastSpread, units: UnitSystem): string {
  const { torque, torqueUnit, power: shown, powerUnit } = SHOWN[units];
  const atPeaks =
    peak === null
      ? ''
      : `Give or take ${spreadFigure(torque(peak.torque.torqueNm))} ${torqueUnit} and ${spreadFigure(shown(peak.power.powerKw))} ${powerUnit} at the peaks, ${fixed(peak.torque.speedRpm)} and ${fixed(peak.power.speedRpm)} rpm in their speeds. `;
  const known =
    evidence === 'sheets'
      ? 'engines published with their sheets'
      : 'production engines known by their sizes alone';
  return `${atPeaks}Mean power over these speeds is ${madeOf(power)}; the model's own error is what ${known} show. One standard deviation each: the engine lies within two times in three, within twice as much 19 times in 20.`;
}

function madeOf({ assumed, stated, model, scatter, total }: SpreadParts): string {
  const cycles = scatter > 0 ? `, ${share(scatter)} from cycles that never repeat` : '';
  return `+/-${share(total)}: ${share(assumed)} from what is assumed, ${share(stated)} from the errors of sheets and ratings, ${share(model)} from the model itself${cycles}`;
}

/** Beside torque and power: one standard deviation of torque. */
export function spreadColumn(spread: ForecastSpread, units: UnitSystem): Column<OperatingPoint> {
  const { torque, torqueUnit } = SHOWN[units];
  return {
    name: '+/-',
    unit: torqueUnit,
    cell: ({ rpm }) => {
      const at = spread.points.find((point) => point.rpm === rpm);
      return at === undefined ? '' : fixed(torque(at.torqueNm), 1);
    },
  };
}

/** What is worth most, as a builder would go about it: a handful, or in a verbose report whatever was looked at by itself. */
export function worthText(
  { worths, rest }: ForecastSpread,
  { assumed }: Curve,
  { width, detail }: { readonly width: number; readonly detail: Detail },
): string {
  const all = detail === 'verbose';
  const much = worths.filter(({ powerPct }) => powerPct >= LITTLE).slice(0, HANDFUL);
  if (much.length === 0) return '';
  const handful = all ? worths : much;
  const worthOf = (worth: UnknownWorth): string =>
    `${worthName(worth, assumed)}, worth +/-${fixed(worth.powerPct, 1)} % of power`;
  const measured = handful.filter(({ settledBy }) => settledBy === 'measuring');
  const fitted = handful.filter(({ settledBy }) => settledBy === 'pull');
  const lines = [
    ...measured.map((worth, i) => `${i === 0 ? 'Measure this first' : 'then'}: ${worthOf(worth)}`),
    ...fitted.map(
      (worth, i) => `${i === 0 ? 'Calibrating on a pull settles the most' : 'and'}: ${worthOf(worth)}`,
    ),
  ];
  const others = worths.length - handful.length + rest.unknowns;
  const left =
    others === 0
      ? []
      : [
          all
            ? `${others} others, moved together: +/-${fixed(rest.powerPct, 1)} %`
            : `${others} others less, ${rest.unknowns} of them together +/-${fixed(rest.powerPct, 1)} %; --verbose lists them`,
        ];
  return linesText([...lines, ...left], width);
}

/** `what it is (assumed 0.85 in)`. */
function worthName({ path, name, kind }: UnknownWorth, assumed: readonly Assumed[]): string {
  const entry = assumed.find((item) => item.path === path);
  if (kind === 'assumed' && entry !== undefined) return `${plain(name)} (assumed)`;
  return kind === 'fitted' ? `${plain(name)} (fitted)` : `${plain(name)} (as stated)`;
}
