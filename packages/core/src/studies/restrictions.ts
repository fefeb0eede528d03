/** Which element stands in the way, found by taking away one after the other. */
import { VERSION } from '../base/version.ts';
import type { Combination } from '../combination/combination.ts';
import { bandMean } from '../forecast/band.ts';
import type { Curve, OperatingPoint } from '../forecast/curve.ts';
import { correctBrake } from '../forecast/weatherCorrection.ts';
import { cautionsOf } from './cautions.ts';
import type { Candidate } from './compare.ts';
import type { StudyBasis } from './comparison.ts';
import { FREEINGS, type Freeing, type RestrictionElement } from './freeing.ts';
import { percent } from './gain.ts';
import { type RunJobs, runJobsHere, type StudyJob } from './job.ts';
import type {
  ElementGain,
  ElementGains,
  Governing,
  RestrictionPoint,
  RestrictionState,
  Restrictions,
  SpeedGain,
} from './restriction.ts';
import { jobOf, type StudyOptions, studyBasis } from './studyOptions.ts';

/** What an element must gain to count as being in the way [%]: three times what two runs of the same engine differ by. */
const LEAST_GAIN = 0.3;

/** Losses, but nothing in the way of air or exhaust: they never govern. */
const NOT_IN_THE_WAY: ReadonlySet<RestrictionElement> = new Set(['charge-heating', 'pumping', 'friction']);

/** Jobs of one combination: as it is, then with each element free that can be freed by a run. */
interface Plan {
  readonly candidate: Candidate;
  readonly freed: readonly { readonly freeing: Freeing; readonly combination: Combination | null }[];
}

/** Speeds, band and how finely, and which changes to look beyond. */
export interface RestrictionOptions extends StudyOptions {
  /** The same engine with a change each, in the order they are reported. */
  readonly changed?: readonly Candidate[];
}

/**
 * Frees each element alone and tells what that is worth at each speed, for the engine as it is and with each change.
 *
 * @param candidate - the engine as it is
 * @throws {@link DomainError} where speeds and band make no sense
 */
export async function restrictions(
  candidate: Candidate,
  options: RestrictionOptions,
  run: RunJobs = runJobsHere,
): Promise<Restrictions> {
  const basis = studyBasis(options, candidate.combination);
  const plans = [candidate, ...(options.changed ?? [])].map(planFor);
  const jobs = plans.flatMap((plan) => jobsOf(plan, basis, options));
  const curves = await run(jobs, options);
  let next = 0;
  const states = plans.map((plan) => {
    const count = jobsOf(plan, basis, options).length;
    next += count;
    return stateOf(plan, curves.slice(next - count, next), curves[0], basis);
  });
  return {
    schemaVersion: 1,
    program: { name: 'valvetide', version: VERSION },
    complete: curves.every((curve) => curve !== null),
    ...basis,
    meanings: FREEINGS.map(({ element, meaning }) => ({ element, meaning })),
    states,
    assumed: candidate.combination.assumed,
    warnings: curves[0]?.warnings ?? [],
  };
}

function planFor(candidate: Candidate): Plan {
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

function stateOf(
  { candidate, freed }: Plan,
  curves: readonly (Curve | null)[],
  first: Curve | null,
  basis: StudyBasis,
): RestrictionState {
  const [now, ...others] = curves;
  const { name, combination } = candidate;
  let next = 0;
  const elements = FREEINGS.map(({ element, free }): ElementGains => {
    if (free === undefined)
      return gainsOf(element, now, now && workless(element, now, combination, basis), basis);
    const change = freed.find((entry) => entry.freeing.element === element)?.combination ?? null;
    if (change === null) return { ...gainsOf(element, now, now?.points ?? null, basis), alreadyFree: true };
    return gainsOf(element, now, others[next++]?.points ?? null, basis);
  });
  const speeds = now === null ? [] : basis.rpm;
  return {
    name,
    metering: combination.induction.kind,
    points: now === null ? null : now.points.map((point) => pointOf(point, combination)),
    bandTorqueNm: now === null ? null : bandMean(now.points, basis.band, basis.weighting).torqueNm,
    elements,
    governing: speeds.map((rpm, i) => governingOf(elements, rpm, ({ byRpm }) => byRpm?.[i] ?? null)),
    bandGoverning: now === null ? null : governingOf(elements, null, ({ band }) => band),
    cautions: now === null || first === null || now === first ? [] : cautionsOf(first, now),
  };
}

type Figures = Pick<OperatingPoint, 'rpm' | 'torqueNm' | 'converged'>;

/** Points of the engine without the work that gas exchange or friction takes, corrected as the curve is. */
function workless(
  element: RestrictionElement,
  curve: Curve,
  { weather }: Combination,
  { correction }: StudyBasis,
): readonly Figures[] {
  return curve.points.map((point) => {
    const { bmepBar, pmepBar, fmepBar, torqueNm, rpm, converged } = point;
    const dry = weather.pressure - weather.vapourPressure;
    const shown = (brake: number, friction: number): number =>
      correctBrake(correction, brake, friction, dry, weather.temperature);
    const before = shown(bmepBar, fmepBar);
    const after = element === 'friction' ? shown(bmepBar + fmepBar, 0) : shown(bmepBar - pmepBar, fmepBar);
    return { rpm, torqueNm: before === 0 ? 0 : torqueNm * (after / before), converged };
  });
}

function gainsOf(
  element: RestrictionElement,
  now: Curve | null,
  freed: readonly Figures[] | null,
  { band, weighting }: StudyBasis,
): ElementGains {
  if (now === null || freed === null) return { element, alreadyFree: false, byRpm: null, band: null };
  const byRpm = freed.map(({ rpm, torqueNm, converged }, i): SpeedGain => {
    return { rpm, ...gain(now.points[i].torqueNm, torqueNm), converged };
  });
  const mean = (points: readonly Figures[]): number => bandMean(points, band, weighting).torqueNm;
  return { element, alreadyFree: false, byRpm, band: gain(mean(now.points), mean(freed)) };
}

function gain(before: number, after: number): ElementGain {
  return { torqueNm: after - before, torquePct: percent(before, after) };
}

function pointOf(point: OperatingPoint, { weather }: Combination): RestrictionPoint {
  const { rpm, torqueNm, powerKw, converged } = point;
  const outside = weather.pressure / 1000;
  return {
    rpm,
    torqueNm,
    powerKw,
    converged,
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
    .map((gains) => ({ element: gains.element, pct: gainIn(gains)?.torquePct ?? 0 }))
    .sort((a, b) => b.pct - a.pct);
  return {
    rpm,
    element: first.pct >= LEAST_GAIN ? first.element : null,
    torquePct: first.pct,
    second: second.pct >= LEAST_GAIN ? second.element : null,
    secondPct: second.pct,
  };
}
