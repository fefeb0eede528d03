/** What isn't known of a forecast: what is assumed, the sheets' errors and the model's own, from a fixed small number of forecasts. */

import type { Fidelity } from '../assembly/symmetry.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Curve } from '../forecast/curve.ts';
import { meanScatterOf, scatterOf } from '../forecast/cycleScatter.ts';
import { type EvidenceKind, MODEL_ERRORS, type ModelError } from '../forecast/modelError.ts';
import { marchedPoints, type WholeCurve } from '../forecast/wholeCurve.ts';
import { linearTable } from '../numerics/interpolate.ts';
import { ForecastQueue } from '../studies/forecastQueue.ts';
import { runJobsHere, type StudyControl } from '../studies/job.ts';
import type { ResponseWorld } from './askedForecasts.ts';
import type { Offset } from './perturbed.ts';
import { responseWorld } from './responseWorld.ts';
import { type SettledBy, settledBy } from './settledBy.ts';
import { signedOffsets } from './signedOffsets.ts';
import { type Kind, type SpreadPlan, spreadPlan } from './spreadPlan.ts';
import type { Unknown } from './unknown.ts';
import { type Unknowns, unknownsOf } from './unknowns.ts';

/** One standard deviation by its parts, in shares of the figure [-]. */
export interface SpreadParts {
  /** From estimates that stand in for what the file leaves out, and from what a calibration left open. */
  readonly assumed: number;
  /** From the errors of what the file states: sheets, ratings and cards. */
  readonly stated: number;
  /** The model's own. */
  readonly model: number;
  /** From cycles that never repeat, see `scatterPct` of a point; 0 where speeds settle. */
  readonly scatter: number;
  /** All together. */
  readonly total: number;
}

/** The same at a speed, of its torque and so of its power. */
export interface SpreadAtRpm extends SpreadParts {
  /** Crank speed [1/min]. */
  readonly rpm: number;
  /** One standard deviation of torque [N m]. */
  readonly torqueNm: number;
}

/** What one unknown is worth. */
export interface UnknownWorth {
  /** Field of the file, the first where it moves several. */
  readonly path: string;
  /** Short name: the field, or the error of a sheet. */
  readonly name: string;
  /** Whether it is an estimate, a stated value or a knob of a calibration. */
  readonly kind: 'assumed' | 'stated' | 'fitted';
  /** What would settle it: measuring it, or a pull to calibrate with. */
  readonly settledBy: SettledBy;
  /** What one standard deviation of it does to mean power over the band, sign taken off [%]. */
  readonly powerPct: number;
}

/** The spread of a forecast. Plain and serialisable. */
export interface ForecastSpread {
  /** One a speed of the curve that has figures. */
  readonly points: readonly SpreadAtRpm[];
  /** Of peak torque and peak power, and of their speeds [1/min]: those of the model alone. */
  readonly peak: {
    readonly torque: SpreadParts & { readonly torqueNm: number; readonly speedRpm: number };
    readonly power: SpreadParts & { readonly powerKw: number; readonly speedRpm: number };
  } | null;
  /** Of mean power over the speeds. */
  readonly power: SpreadParts;
  /** What was looked at singly, worth most first. */
  readonly worths: readonly UnknownWorth[];
  /** All others together [% of mean power over the speeds], and how many. */
  readonly rest: { readonly powerPct: number; readonly unknowns: number };
  /** What is known of the engine: decides the error of the model. */
  readonly evidence: EvidenceKind;
  /** How many forecasts it took. */
  readonly forecasts: number;
}

/** How it is worked out. */
export interface ForecastSpreadOptions extends StudyControl {
  /** How many cylinders march; default `representative`. */
  readonly fidelity?: Fidelity | undefined;
  /** Default 1. */
  readonly seed?: number | undefined;
}

/** So often all others of a kind are moved at once. */
const VECTORS = 3;
/** Where in the speeds of the curve responses are taken: middles of thirds. */
const SHARES: readonly number[] = [1 / 6, 1 / 2, 5 / 6];
const NOMINAL = 'nominal';

/** Change of torque at the speeds of the responses, in shares of the torque there. */
type Effect = readonly number[];

/**
 * The spread of a curve. The unknowns that are usually worth most are moved singly by one standard deviation; all others are moved
 * together, each up or down by chance: the mean square of what that does is their variance together, without bias (random balance:
 * Satterthwaite, 1959, Technometrics 1, 111; from memory). Null where an abort came first, or the engine could not be marched at one
 * of the three speeds.
 *
 * @example
 * ```ts
 * const spread = await forecastSpread(baseline, forecast(baseline.combination, { rpm: [4000, 5000, 6000] }));
 * console.log(spread?.power.total, spread?.worths[0]);
 * ```
 */
export async function forecastSpread(
  baseline: Baseline,
  curve: Curve,
  options: ForecastSpreadOptions = {},
): Promise<ForecastSpread | null> {
  const { run = runJobsHere, fidelity, seed = 1, ...control } = options;
  const shown = marchedPoints(curve);
  if (shown.length === 0) return null;
  const unknowns = unknownsOf(baseline, []);
  const plan = spreadPlan(baseline, unknowns);
  const queue = new ForecastQueue(run, control);
  const rpm = responseRpm(shown.map((point) => point.rpm));
  const world = responseWorld(baseline, [], unknowns, { queue, seed, rpm, fidelity, sheet: undefined });
  const together = askSpread(world, plan);
  await queue.run();
  const nominal = queue.curve(NOMINAL);
  if (nominal === null || !queue.complete) return null;

  const effectOf = (name: string): readonly Effect[] => {
    const moved = queue.curve(name);
    return moved === null
      ? []
      : [moved.points.map((point, i) => point.torqueNm / nominal.points[i].torqueNm - 1)];
  };
  const found: SpreadFound = {
    singly: plan.singly.flatMap(({ unknown, kind }) =>
      effectOf(unknown.id).map((effect) => ({ unknown, kind, effect })),
    ),
    together: together.map(({ kind, names }) => ({ kind, effects: names.flatMap(effectOf) })),
    unknowns,
  };
  return spreadOfCurve(baseline, curve, nominal, found, {
    rest: plan.rest.reduce((sum, { members }) => sum + members.length, 0),
    forecasts: queue.asked,
  });
}

/** Queues the engine as it is and moved; the names of the forecasts that many were moved for at once. */
function askSpread(
  { build, ask, seed }: ResponseWorld,
  { singly, rest }: SpreadPlan,
): readonly { readonly kind: Kind; readonly names: readonly string[] }[] {
  const asked = (name: string, offsets: readonly Offset[]): boolean => {
    const combination = build([], offsets);
    if (combination !== null) ask(name, combination);
    return combination !== null;
  };
  const isPossible = (unknown: Unknown, z: number): boolean => build([], [{ unknown, z }]) !== null;
  asked(NOMINAL, []);
  for (const { unknown } of singly) [1, -1].some((z) => asked(unknown.id, [{ unknown, z }]));
  return rest.map(({ kind, members }) => {
    const names = members.length === 0 ? [] : Array.from({ length: VECTORS }, (_, v) => `${kind} ${v}`);
    return {
      kind,
      names: names.filter((name) => asked(name, signedOffsets(members, { seed, name, isPossible }))),
    };
  });
}

/** What the forecasts found of unknowns. */
interface SpreadFound {
  readonly singly: readonly { readonly unknown: Unknown; readonly kind: Kind; readonly effect: Effect }[];
  /** Of all others of a kind, one effect a time that they were moved at once. */
  readonly together: readonly { readonly kind: Kind; readonly effects: readonly Effect[] }[];
  readonly unknowns: Unknowns;
}

function spreadOfCurve(
  baseline: Baseline,
  curve: Curve,
  nominal: WholeCurve,
  found: SpreadFound,
  { rest, forecasts }: { readonly rest: number; readonly forecasts: number },
): ForecastSpread {
  const shown = marchedPoints(curve);
  const rpm = nominal.points.map((point) => point.rpm);
  // Mean power counts each speed by its power.
  const powers = nominal.points.map(({ powerKw }) => powerKw);
  const inPower = (effect: Effect): number =>
    effect.reduce((sum, share, i) => sum + share * powers[i], 0) / powers.reduce((sum, p) => sum + p, 0);
  const evidence = evidenceOf(baseline);
  const own = MODEL_ERRORS[evidence];
  const scatters = new Map(shown.map((point) => [point.rpm, scatterOf(point)]));
  const at = (n: number, model: number): SpreadParts =>
    partsOf(found, (effect) => between(rpm, effect, n), model, scatters.get(n) ?? 0);
  const restVariance = found.together.reduce((sum, { effects }) => sum + meanSquare(effects, inPower), 0);
  return {
    points: shown.map((point): SpreadAtRpm => {
      const parts = at(point.rpm, own.torque);
      return { rpm: point.rpm, ...parts, torqueNm: parts.total * Math.abs(point.torqueNm) };
    }),
    peak: peakSpread(curve, at, own),
    power: partsOf(found, inPower, own.power, meanScatterOf(shown)),
    worths: found.singly
      .map(
        ({ unknown, kind, effect }): UnknownWorth => ({
          path: unknown.path,
          name: unknown.id,
          kind,
          settledBy: settledBy(unknown.path),
          powerPct: 100 * Math.abs(inPower(effect)),
        }),
      )
      .sort((a, b) => b.powerPct - a.powerPct || (a.name < b.name ? -1 : 1)),
    rest: { powerPct: 100 * Math.sqrt(restVariance), unknowns: rest },
    evidence,
    forecasts,
  };
}

/** One standard deviation by its parts, of a figure that effects are read as. */
function partsOf(
  { singly, together, unknowns }: SpreadFound,
  read: (effect: Effect) => number,
  model: number,
  scatter: number,
): SpreadParts {
  const variance = { assumed: 0, stated: 0, fitted: 0 };
  for (const { kind, effect } of singly) if (kind !== 'fitted') variance[kind] += read(effect) ** 2;
  for (const { kind, effects } of together) variance[kind] += meanSquare(effects, read);
  variance.fitted = fittedVariance(unknowns, (id) => {
    const one = singly.find(({ unknown }) => unknown.id === id);
    return one === undefined ? 0 : read(one.effect);
  });
  const assumed = Math.sqrt(variance.assumed + variance.fitted);
  const stated = Math.sqrt(variance.stated);
  return { assumed, stated, model, scatter, total: Math.hypot(assumed, stated, model, scatter) };
}

function meanSquare(effects: readonly Effect[], read: (effect: Effect) => number): number {
  return effects.reduce((sum, effect) => sum + read(effect) ** 2, 0) / Math.max(1, effects.length);
}

/** A flow sheet and a cam card, or a measured lobe, make an engine known by its sheets. */
export function evidenceOf({ combination, stated }: Pick<Baseline, 'combination' | 'stated'>): EvidenceKind {
  const cam = stated.data['cam'];
  const isCarded = typeof cam === 'object' && cam !== null && 'intake' in cam;
  return combination.intake.flow.measuredTo !== null && isCarded ? 'sheets' : 'estimates';
}

function responseRpm(speeds: readonly number[]): readonly number[] {
  const [from, to] = [speeds[0], speeds[speeds.length - 1]];
  return [...new Set(SHARES.map((share) => Math.round(from + share * (to - from))))];
}

/** Straight between the speeds, held at the nearest beyond them. */
function between(rpm: readonly number[], values: Effect, n: number): number {
  if (rpm.length === 1) return values[0];
  return linearTable(rpm, values).valueAt(Math.min(rpm[rpm.length - 1], Math.max(rpm[0], n)));
}

/** Of the knobs of a calibration, which go together. */
function fittedVariance({ calibrated }: Unknowns, effect: (id: string) => number): number {
  if (calibrated === null) return 0;
  const { ids, correlation } = calibrated;
  const sum = ids.reduce(
    (rows, a, i) => rows + ids.reduce((row, b, k) => row + correlation[i][k] * effect(a) * effect(b), 0),
    0,
  );
  return Math.max(0, sum);
}

function peakSpread(
  { peak }: Curve,
  at: (rpm: number, model: number) => SpreadParts,
  own: ModelError,
): ForecastSpread['peak'] {
  if (peak === null) return null;
  const torque = at(peak.torque.rpm, own.torque);
  const power = at(peak.power.rpm, own.power);
  return {
    torque: { ...torque, torqueNm: torque.total * Math.abs(peak.torque.torqueNm), speedRpm: own.torqueSpeed },
    power: { ...power, powerKw: power.total * Math.abs(peak.power.powerKw), speedRpm: own.powerSpeed },
  };
}
