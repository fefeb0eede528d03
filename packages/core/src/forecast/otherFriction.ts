/** An engine that differs from one that was forecast in what rubs alone: its cycle is the same, so that nothing has to be marched. */

import { BAR } from '../base/constants.ts';
import type { Combination } from '../combination/combination.ts';
import { sweptVolume } from '../geometry/sliderCrank.ts';
import { brakeOf, observedPower, rubbingPressure, shownTorque } from './brakeFigures.ts';
import type { Curve, MarchedPoint } from './curve.ts';
import { peakOf } from './curvePeak.ts';
import { isMarched, marchedPoints } from './wholeCurve.ts';

/** What a march sees of an engine, as text: engines of one text have one cycle, and differ in what rubs and in what is said of them. */
export function marchedText(combination: Combination): string {
  const { name, limits, ratedSpeed, units, calibration, assumed, warnings, friction, ...marched } =
    combination;
  // Valves bend with the kind of their train.
  return JSON.stringify({ ...marched, valvetrain: friction.valvetrain });
}

/**
 * The curve of an engine from that of another with the same {@link marchedText}. Its warnings stay those of the other.
 *
 * @param before - the engine that the curve is of
 */
export function withOtherFriction(curve: Curve, before: Combination, after: Combination): Curve {
  const points = curve.points.map((point) => (isMarched(point) ? rubbedPoint(point, before, after) : point));
  return {
    ...curve,
    combination: after.name,
    points,
    peak: peakOf(marchedPoints({ points })),
    assumed: after.assumed,
  };
}

function rubbedPoint(point: MarchedPoint, before: Combination, after: Combination): MarchedPoint {
  const { rpm, fuelKgPerH, torqueGivenBackPct, cylinders } = point;
  const plenum = 1000 * point.manifoldPressureKpa;
  const more = rubbingPressure(after, rpm, plenum) - rubbingPressure(before, rpm, plenum);
  // Shown torque is linear in friction.
  const swept = sweptVolume(after.block);
  const lost = (volume: number): number =>
    -Math.sign(more) * shownTorque(after, volume, { indicated: 0, friction: Math.abs(more) });
  const torque = point.torqueNm - lost(swept * after.block.cylinders);
  const brake = brakeOf(torque, rpm);
  const bmepBar = point.bmepBar - more / BAR;
  const power = observedPower(after, rpm, bmepBar * BAR);
  // Work that timing gives back, over a mean pressure of the same volume.
  const givenBack = (torqueGivenBackPct * point.bmepBar) / (100 - torqueGivenBackPct);
  return {
    ...point,
    ...brake,
    fmepBar: point.fmepBar + more / BAR,
    bmepBar,
    bsfcGPerKwh: power > 0 ? (1e6 * fuelKgPerH) / power : 0,
    torqueGivenBackPct: (100 * givenBack) / (givenBack + bmepBar),
    ...(cylinders === undefined
      ? {}
      : { cylinders: cylinders.map((one) => ({ ...one, torqueNm: one.torqueNm - lost(swept) })) }),
  };
}
