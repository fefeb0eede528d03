/** Whether a forecast keeps within what the fuel and the stated limits allow. */

import { portLift } from '../assembly/portValve.ts';
import { FOOT, INCH } from '../base/constants.ts';
import type { Combination } from '../combination/combination.ts';
import { SIDES } from '../combination/sides.ts';
import { octaneIndex } from '../processes/knock.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';
import type { Curve, MarchedPoint } from './curve.ts';
import { marchedPoints } from './wholeCurve.ts';

/** What may be broken. */
export type LimitName = 'octane' | 'piston-speed' | 'valve-lift' | 'redline';

/** A limit that a forecast breaks. */
export interface Breach {
  /** Which one. */
  readonly limit: LimitName;
  /** Field of the file that states it. */
  readonly path: string;
  /** What the forecast comes to, in `unit`. */
  readonly value: number;
  /** What is allowed, in `unit`. */
  readonly allowed: number;
  /** `octane`, `m/s`, `mm` or `rpm`. */
  readonly unit: 'octane' | 'm/s' | 'mm' | 'rpm';
  /** Whether the file states the limit, or it is the usual one. */
  readonly stated: boolean;
  /** What is broken, for people. */
  readonly message: string;
}

/**
 * Margin where the file states none [octane numbers]: so many may be missing at best timing and are given back in spark. A degree of
 * retard spares about one, and a builder who gives back more has too much compression for his fuel (common practice, no source).
 */
export const USUAL_OCTANE_MARGIN = -4;

/** So little beyond a limit is rounding [-]. */
const SLACK = 1e-6;

/** By so much more than another must a forecast break a limit to count as worse: octane numbers, and a share of the others [-]. */
const WORSE_OCTANE = 0.5;
const WORSE_SHARE = 0.005;

type FieldBreach = Breach & { readonly path: FieldPath };

/**
 * The limits that the curve breaks: octane, piston speed, valve lift, redline.
 *
 * @example
 * ```ts
 * const curve = forecast(combination, { rpm: [3000, 4000, 5000] });
 * for (const { message } of limitBreaches(combination, curve)) console.log(message);
 * ```
 */
export function limitBreaches(combination: Combination, curve: Pick<Curve, 'points'>): readonly Breach[] {
  const points = marchedPoints(curve);
  if (points.length === 0) return [];
  return [
    octaneBreach(combination, points),
    pistonSpeedBreach(combination, curve),
    valveLiftBreach(combination),
    redlineBreach(combination, points),
  ].filter((breach) => breach !== null);
}

/** Of `after`, what `before` keeps or breaks less. */
export function newBreaches(before: readonly Breach[], after: readonly Breach[]): readonly Breach[] {
  return after.filter(({ limit, value }) => {
    const old = before.find((breach) => breach.limit === limit);
    if (old === undefined) return true;
    const step = limit === 'octane' ? WORSE_OCTANE : WORSE_SHARE * old.value;
    return value > old.value + step;
  });
}

function octaneBreach(
  { fuel, burn, limits }: Combination,
  points: readonly MarchedPoint[],
): FieldBreach | null {
  const has = octaneIndex(fuel.researchOctane, fuel.motorOctane);
  const stated = limits.octaneMargin !== null;
  const margin = limits.octaneMargin ?? USUAL_OCTANE_MARGIN;
  // A stated spark is what will be run; where the spark is found, the best one says what the engine is made for.
  const isStatedSpark = burn.timing.mode === 'spark' || burn.timing.mode === 'ca50';
  const asked = (p: MarchedPoint): number => (isStatedSpark ? p.octaneRequired : p.octaneAtBestTiming);
  const most = points.reduce((a, b) => (asked(b) > asked(a) ? b : a));
  const breach = (value: number, allowed: number, message: string): FieldBreach => ({
    limit: 'octane',
    path: stated ? 'limits.octaneMargin' : 'fuel',
    value,
    allowed,
    unit: 'octane',
    stated,
    message,
  });
  const knocking = points.filter(({ detonates }) => detonates);
  if (knocking.length > 0) {
    const least = Math.max(...knocking.map(({ octaneRequired }) => octaneRequired));
    const where = knocking.map(({ rpm }) => rpm).join(', ');
    return breach(
      least,
      has,
      `${fuel.name} detonates at ${where} rpm: it has ${shown(has)} octane and needs at least ${Math.ceil(least)}`,
    );
  }
  const value = asked(most);
  // A stated spark that does not detonate gives nothing back.
  const allowed = isStatedSpark && !stated ? has : has - margin;
  if (!(value > allowed + SLACK * has)) return null;
  const timing = isStatedSpark ? 'the stated timing' : 'best timing';
  const asks = `${timing} at ${most.rpm} rpm asks for ${Math.ceil(value)} octane, ${fuel.name} has ${shown(has)}`;
  // A stated spark without a stated margin must not be passed at all, which needs no rule beside it.
  const rule = isStatedSpark && !stated ? '' : octaneRule(limits.octaneMargin);
  return breach(value, allowed, `${asks}${rule}`);
}

/** How far fuel and engine may be apart, by a stated margin or the usual one. */
function octaneRule(stated: number | null): string {
  const margin = stated ?? USUAL_OCTANE_MARGIN;
  if (margin >= 0) return `; limits.octaneMargin asks for ${shown(margin)} to spare`;
  return `; a gap of ${shown(-margin)} at most is allowed (limits.octaneMargin${stated === null ? ' sets it' : ''})`;
}

function pistonSpeedBreach(
  { block, limits: { pistonSpeed, redline } }: Combination,
  { points }: Pick<Curve, 'points'>,
): FieldBreach | null {
  if (pistonSpeed === null) return null;
  const highest = Math.max(...points.map(({ rpm }) => rpm));
  const rpm = redline === null ? highest : Math.min(highest, redline);
  const value = (block.stroke * rpm) / 30;
  if (!(value > pistonSpeed * (1 + SLACK))) return null;
  const both = (speed: number): string =>
    `${speed.toFixed(1)} m/s (${((speed * 60) / FOOT).toFixed(0)} ft/min)`;
  const message = `mean piston speed is ${both(value)} at ${rpm} rpm, and limits.pistonSpeed is ${both(pistonSpeed)}`;
  return {
    limit: 'piston-speed',
    path: 'limits.pistonSpeed',
    value,
    allowed: pistonSpeed,
    unit: 'm/s',
    stated: true,
    message,
  };
}

function valveLiftBreach(combination: Combination): FieldBreach | null {
  const allowed = combination.limits.valveLift;
  if (allowed === null) return null;
  const sides = SIDES.map((side) => ({
    side,
    lift: portLift(combination[side], side, combination.friction.valvetrain).maxLift,
  }));
  const most = sides[1].lift > sides[0].lift ? sides[1] : sides[0];
  if (!(most.lift > allowed * (1 + SLACK))) return null;
  const both = (lift: number): string => `${(1000 * lift).toFixed(2)} mm (${(lift / INCH).toFixed(3)} in)`;
  return {
    limit: 'valve-lift',
    path: 'limits.valveLift',
    value: 1000 * most.lift,
    allowed: 1000 * allowed,
    unit: 'mm',
    stated: true,
    message: `${most.side} valve lift is ${both(most.lift)}, and limits.valveLift is ${both(allowed)}`,
  };
}

function redlineBreach(
  { limits: { redline } }: Combination,
  points: readonly MarchedPoint[],
): FieldBreach | null {
  if (redline === null) return null;
  const { rpm } = points.reduce((best, p) => (p.powerKw > best.powerKw ? p : best));
  if (!(rpm > redline * (1 + SLACK))) return null;
  return {
    limit: 'redline',
    path: 'limits.redline',
    value: rpm,
    allowed: redline,
    unit: 'rpm',
    stated: true,
    message: `power is highest at ${rpm} rpm, and limits.redline is ${redline.toFixed(0)} rpm`,
  };
}

function shown(value: number): string {
  return String(Number(value.toFixed(1)));
}
