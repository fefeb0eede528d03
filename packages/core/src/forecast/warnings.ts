/** Doubts and cautions that only a computed curve can raise. */

import type { Combination, Warning } from '../combination/combination.ts';
import type { CorrectionStandard } from '../combination/running.ts';
import { octaneIndex } from '../processes/knock.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';
import type { OperatingPoint } from './curve.ts';
import { limitBreaches } from './limits.ts';
import { oddFigures } from './oddFigures.ts';
import { brakeFactor, correctionBand } from './weatherCorrection.ts';
import { marchedPoints } from './wholeCurve.ts';

/** Mean piston speed above which ordinary parts need thought, and above which few last [m/s] (common practice, no source: 4000 and 5000 ft/min). */
const FAST_PISTON = 20.3;
const VERY_FAST_PISTON = 25.4;

/** @param marchedWhole - speeds at which one cylinder could not stand for the others [1/min] */
export function curveWarnings(
  combination: Combination,
  points: readonly OperatingPoint[],
  marchedWhole: readonly number[],
): Warning[] {
  const warnings: Warning[] = [];
  const add = (code: string, path: FieldPath | '', message: string) => warnings.push({ code, path, message });
  const marched = marchedPoints({ points });

  const without = points.filter((p) => p.status === 'lost');
  const lost = without.filter((p) => p.code === 'lost').map((p) => p.rpm);
  if (lost.length > 0)
    add(
      'lost',
      '',
      `no figures at ${lost.join(', ')} rpm: the gas moved too fast to follow, however short the steps`,
    );
  const overrun = without.filter((p) => p.code === 'too-many-steps');
  if (overrun.length > 0)
    add(
      'too-many-steps',
      '',
      `no figures at ${overrun.map((p) => p.rpm).join(', ')} rpm: ${overrun[0].reason}`,
    );
  const unsettled = marched.filter((p) => p.status === 'unsettled');
  if (unsettled.length > 0) {
    const scatter = Math.max(...unsettled.map((p) => p.scatterPct ?? 0));
    add(
      'not-converged',
      '',
      `the cycle did not settle at ${unsettled.map((p) => p.rpm).join(', ')} rpm: means of many cycles, whose torque scatters by up to ${scatter.toPrecision(2)} %`,
    );
  }

  const dragged = marched.filter((p) => !(p.torqueNm > 0)).map((p) => p.rpm);
  if (dragged.length > 0)
    add(
      'no-torque',
      '',
      `friction and pumping take all the engine makes at ${dragged.join(', ')} rpm: it can't run there on its own`,
    );

  warnings.push(...oddFigures(combination, marched));

  if (marchedWhole.length > 0)
    add(
      'every-cylinder-marched',
      '',
      `at ${marchedWhole.join(', ')} rpm one cylinder could not stand for the others, so every cylinder was computed`,
    );

  const fuel = combination.fuel;
  const octane = octaneIndex(fuel.researchOctane, fuel.motorOctane);
  const knocking = marched.filter((p) => p.detonates);
  if (knocking.length > 0) {
    const most = Math.max(...knocking.map((p) => p.octaneRequired));
    add(
      'detonation',
      'fuel',
      `${fuel.name} (${octane.toFixed(1)} octane) detonates at ${knocking.map((p) => p.rpm).join(', ')} rpm, which needs at least ${Math.ceil(most)} octane`,
    );
  }
  // A spark table or an angle that someone states may be late for reasons of his own.
  const limited =
    combination.burn.timing.mode === 'knock-limited'
      ? marched.filter((p) => !p.detonates && p.sparkGivenBackDeg > 1)
      : [];
  if (limited.length > 0) {
    const worst = limited.reduce((a, b) => (b.sparkGivenBackDeg > a.sparkGivenBackDeg ? b : a));
    add(
      'knock-limited',
      'fuel',
      `knock holds the spark back by up to ${worst.sparkGivenBackDeg.toFixed(0)} deg (${worst.torqueGivenBackPct.toFixed(1)} % of torque, at ${worst.rpm} rpm); best timing would ask for ${Math.ceil(worst.octaneAtBestTiming)} octane`,
    );
  }
  const fastest = Math.max(...points.map((p) => p.meanPistonSpeedMs));
  if (fastest > FAST_PISTON)
    add(
      'piston-speed',
      'engine.stroke',
      `mean piston speed reaches ${fastest.toFixed(1)} m/s: ${fastest > VERY_FAST_PISTON ? 'beyond what race parts usually bear' : 'forged parts and a speed limiter are the least'}`,
    );
  const factorOf = (standard: CorrectionStandard): number =>
    brakeFactor(
      standard,
      combination.weather.pressure - combination.weather.vapourPressure,
      combination.weather.temperature,
    );
  const factor = factorOf(combination.correction);
  // The range is J1349's, about its own reference: J607's lies 4 % off, so that a hot day under it may be outside and no doubtful day.
  // Beyond 3 % the result notes it beside the factor it always shows.
  if ([factor, factorOf('J1349')].every((each) => correctionBand(each) === 'caution'))
    add(
      'weather-correction',
      'weather',
      `the weather correction is ${factor.toFixed(3)}: outside the range the standards allow`,
    );
  for (const { stated, path, message } of limitBreaches(combination, { points }))
    if (stated) warnings.push({ code: 'beyond-limit', path, message });
  return warnings;
}
