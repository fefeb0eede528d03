/** Which element stands in the way, found by taking away one after the other. */

import type { Result } from '../base/result.ts';
import { VERSION } from '../base/version.ts';
import type { Combination } from '../combination/combination.ts';
import type { Problem } from '../combination/problem.ts';
import { bandMean } from '../forecast/band.ts';
import type { Curve, MarchedPoint } from '../forecast/curve.ts';
import { correctBrake } from '../forecast/weatherCorrection.ts';
import { leftOutOf, marchedPoints, wholeCurve } from '../forecast/wholeCurve.ts';
import { cautionsOf } from './cautions.ts';
import { type NamedCombination, nameOfCombination } from './compare.ts';
import type { StudyBasis } from './comparisonResult.ts';
import { FREEINGS, type Freeing, type RestrictionElement } from './freeing.ts';
import { percent } from './gain.ts';
import { runJobsHere, type StudyJob } from './job.ts';
import type {
  ElementGain,
  ElementGains,
  Governing,
  RestrictionPoint,
  RestrictionState,
  RestrictionsResult,
  SpeedGain,
} from './restrictionsResult.ts';
import { jobOf, type StudyOptions, studyBasis } from './studyOptions.ts';

/** What an element must gain to count as being in the way [%]: three times what two runs of the same engine differ by. */
const LEAST_GAIN = 0.3;

/** Losses, but nothing in the way of air or exhaust: they never govern. */
const NOT_IN_THE_WAY: ReadonlySet<RestrictionElement> = new Set(['charge-heating', 'pumping', 'friction']);

/** Jobs of one combination: as it is, then with each element free that can be freed by a run. */
interface Plan {
  readonly candidate: NamedCombination;
  readonly freed: readonly { readonly freeing: Freeing; readonly combination: Combination | null }[];
}

/**
 * Frees each element alone and tells what that is worth at each speed, for the engine as it is and with each change.
 *
 * @param changed - the same engine with a change each, to see what stands in the way after it
 * @throws {@link DomainError} where speeds and band make no sense
 *
 * @example
 * ```ts
 * const found = await restrictions({ combination }, [], { rpm: [4000, 5000, 6000] });
 * if (found.ok) console.log(found.value.states[0].bandGoverning?.element);
 * ```
 */
export async function restrictions(
  baseline: NamedCombination,
  changed: readonly NamedCombination[],
  options: StudyOptions,
): Promise<Result<RestrictionsResult, Problem>> {
  const { combination } = baseline;
  const basis = studyBasis(options, combination);
  const plans = [baseline, ...changed].map(planFor);
  const jobs = plans.flatMap((plan) => jobsOf(plan, basis, options));
  const { run = runJobsHere } = options;
  const curves = await run(jobs, options);
  let next = 0;
  const states = plans.map((plan) => {
    const count = jobsOf(plan, basis, options).length;
    next += count;
    return stateOf(plan, curves.slice(next - count, next), curves[0], basis);
  });
  const value: RestrictionsResult = {
    schemaVersion: 1,
    program: { name: 'valvetide', version: VERSION },
    complete: curves.every((curve) => curve !== null),
    ...basis,
    meanings: FREEINGS.map(({ element, meaning }) => ({ element, meaning })),
    states,
    assumed: combination.assumed,
    warnings: curves[0]?.warnings ?? [],
    leftOut: jobNames(plans).flatMap((name, i) => leftOutOf(name, curves[i])),
  };
  return { ok: true, value };
}

function planFor(candidate: NamedCombination): Plan {
  const freed = FREEINGS.filter(({ free }) => free !== undefined).map((freeing) => ({
    freeing,
    combination: freeing.free?.(candidate.combination) ?? null,
  }));
  return { candidate, freed };
}

function jobsOf({ candidate, freed }: Plan, basis: StudyBasis, { mesh }: StudyOptions): readonly StudyJob[] {
  const free = freed.flatMap(({ combination }) => (combination === null ? [] : [combination]));
  return [candidate.combination, ...free].map((combination) => jobOf(combination, basis, mesh));
}

/** What each job is a forecast of, in the order of {@link jobsOf}. */
function jobNames(plans: readonly Plan[]): readonly string[] {
  return plans.flatMap(({ candidate, freed }) => [
    nameOfCombination(candidate),
    ...freed
      .filter(({ combination }) => combination !== null)
      .map(({ freeing }) => `${nameOfCombination(candidate)} with ${freeing.element} free`),
  ]);
}

function stateOf(
  { candidate, freed }: Plan,
  curves: readonly (Curve | null)[],
  first: Curve | null,
  basis: StudyBasis,
): RestrictionState {
  const [curve, ...others] = curves;
  const { combination } = candidate;
  const now = curve === null ? null : figuresOf(curve);
  let next = 0;
  const elements = FREEINGS.map(({ element, free }): ElementGains => {
    if (free === undefined)
      return gainsOf(element, now, now && workless(element, now, combination, basis), basis);
    const change = freed.find((entry) => entry.freeing.element === element)?.combination ?? null;
    if (change === null) return { ...gainsOf(element, now, now, basis), alreadyFree: true };
    const other = others[next++] ?? null;
    return gainsOf(element, now, other === null ? null : figuresOf(other), basis);
  });
  const points = now === null ? null : now.points.map((point) => pointOf(point, combination));
  return {
    name: nameOfCombination(candidate),
    metering: combination.induction.kind,
    points,
    bandTorqueNm:
      now === null || !now.whole ? null : bandMean(now.points, basis.band, basis.weighting).torqueNm,
    elements,
    governing: (points ?? []).map(({ rpm }) =>
      governingOf(elements, rpm, ({ byRpm }) => byRpm?.find((gains) => gains.rpm === rpm) ?? null),
    ),
    bandGoverning: now === null || !now.whole ? null : governingOf(elements, null, ({ band }) => band),
    cautions: curve === null || first === null || curve === first ? [] : cautionsOf(first, curve),
  };
}

type Figures = Pick<MarchedPoint, 'rpm' | 'torqueNm' | 'status'>;

/** The speeds of a curve that have figures, and whether those are all. */
interface CurveFigures<Point extends Figures> {
  readonly points: readonly Point[];
  readonly whole: boolean;
}

function figuresOf(curve: Curve): CurveFigures<MarchedPoint> {
  return { points: marchedPoints(curve), whole: wholeCurve(curve) !== null };
}

/** The engine without the work that gas exchange or friction takes, corrected as the curve is. */
function workless(
  element: RestrictionElement,
  { points, whole }: CurveFigures<MarchedPoint>,
  { weather }: Combination,
  { correction }: StudyBasis,
): CurveFigures<Figures> {
  const dry = weather.pressure - weather.vapourPressure;
  const shown = (brake: number, friction: number): number =>
    correctBrake(correction, brake, friction, dry, weather.temperature);
  const free = ({ bmepBar, pmepBar, fmepBar, torqueNm, rpm, status }: MarchedPoint): Figures => {
    const before = shown(bmepBar, fmepBar);
    const after = element === 'friction' ? shown(bmepBar + fmepBar, 0) : shown(bmepBar - pmepBar, fmepBar);
    return { rpm, torqueNm: before === 0 ? 0 : torqueNm * (after / before), status };
  };
  return { points: points.map(free), whole };
}

function gainsOf(
  element: RestrictionElement,
  now: CurveFigures<Figures> | null,
  freed: CurveFigures<Figures> | null,
  { band, weighting }: StudyBasis,
): ElementGains {
  if (now === null || freed === null) return { element, alreadyFree: false, byRpm: null, band: null };
  const byRpm = now.points.flatMap(({ rpm, torqueNm }): SpeedGain[] => {
    const after = freed.points.find((point) => point.rpm === rpm);
    return after === undefined ? [] : [{ rpm, ...gain(torqueNm, after.torqueNm), status: after.status }];
  });
  const mean = (points: readonly Figures[]): number => bandMean(points, band, weighting).torqueNm;
  // A mean over a band with a hole in it is another mean.
  const whole = now.whole && freed.whole;
  return {
    element,
    alreadyFree: false,
    byRpm,
    band: whole ? gain(mean(now.points), mean(freed.points)) : null,
  };
}

function gain(before: number, after: number): ElementGain {
  return { torqueNm: after - before, torquePct: percent(before, after) };
}

function pointOf(point: MarchedPoint, { weather }: Combination): RestrictionPoint {
  const { rpm, torqueNm, powerKw, status } = point;
  const outside = weather.pressure / 1000;
  return {
    rpm,
    torqueNm,
    powerKw,
    status,
    fillingLoss: {
      depressionPct: 100 * (1 - point.manifoldPressureKpa / outside),
      warmthPct: 100 * (1 - weather.temperature / point.chargeTemperatureK),
      residualPct: 100 * point.residualFraction,
    },
  };
}

function governingOf(
  elements: readonly ElementGains[],
  rpm: number | null,
  gainIn: (gains: ElementGains) => ElementGain | null,
): Governing {
  const [first, second] = elements
    .filter(({ element }) => !NOT_IN_THE_WAY.has(element))
    .flatMap((gains) => {
      const found = gainIn(gains);
      return found === null ? [] : [{ element: gains.element, pct: found.torquePct }];
    })
    .sort((a, b) => b.pct - a.pct);
  const isInTheWay = (entry: typeof first | undefined): boolean =>
    entry !== undefined && entry.pct >= LEAST_GAIN;
  return {
    rpm,
    element: isInTheWay(first) ? first.element : null,
    torquePct: first?.pct ?? 0,
    second: isInTheWay(second) ? second.element : null,
    secondPct: second?.pct ?? 0,
  };
}
