/** The changes of a ranking, each alone. */

import { LEAST_GAIN_PCT, leftOutOfModel } from '../changes/notModelled.ts';
import { pullsNeeded, resolvablePct } from '../dyno/dynoResolution.ts';
import { bandMean } from '../forecast/band.ts';
import { limitBreaches, newBreaches } from '../forecast/limits.ts';
import type { WholeCurve } from '../forecast/wholeCurve.ts';
import { standardDeviation } from '../numerics/standardDeviation.ts';
import { topOf } from '../numerics/topOf.ts';
import { cautionsOf } from '../studies/cautions.ts';
import { percent } from '../studies/gain.ts';
import { chanceToBeat, shareAbove } from '../uncertainty/drawFigures.ts';
import { pairedDraws } from '../uncertainty/pairedDraws.ts';
import type { SpreadAt } from '../uncertainty/speedSpread.ts';
import type { Unknown } from '../uncertainty/unknown.ts';
import { type VarianceShares, varianceShares } from '../uncertainty/varianceShares.ts';
import type { GainAtSpeed, MattersMost, RankedChange } from './rankingResult.ts';
import { BASELINE, changeKey, type RankSpeeds, type RankStudy } from './rankStudy.ts';
import { tieGroups } from './tieGroups.ts';

/** Gain in power averaged over the band. */
export interface PowerGain {
  /** Of the power of the engine as it is [%]. */
  readonly pct: number;
  /** [kW] */
  readonly kw: number;
}

/** Of a curve over that of the engine as it is, by mean power over the band. */
export function powerGain(base: WholeCurve, curve: WholeCurve, { band }: RankSpeeds): PowerGain {
  const before = bandMean(base.points, band).powerKw;
  const after = bandMean(curve.points, band).powerKw;
  return { pct: percent(before, after), kw: after - before };
}

/** Largest gain first, equals by name. */
export function rankChanges(study: RankStudy): readonly RankedChange[] {
  const { queue, applied, responses, spreads, unknowns, dyno, speeds } = study;
  const base = queue.curve(BASELINE);
  if (base === null) return [];
  const measured = applied.flatMap(({ change, combination }, i) => {
    const curve = queue.curve(changeKey(change.name));
    if (curve === null) return [];
    const gain = powerGain(base, curve, speeds);
    return [{ change, combination, curve, gain, subject: responses.candidates[i] ?? null }];
  });
  measured.sort((a, b) => b.gain.pct - a.gain.pct || (a.change.name < b.change.name ? -1 : 1));
  const drawsOf = gainDraws(study, new Map(measured.map(({ change, gain }) => [change.name, gain.pct])));
  const beats = (one: number, other: number): number => {
    const a = drawsOf.get(measured[one].change.name);
    const b = drawsOf.get(measured[other].change.name);
    return a === undefined || b === undefined ? 0.5 : chanceToBeat(a, b);
  };
  const groups = tieGroups(measured.length, beats);
  const own = limitBreaches(study.baseline.combination, base);
  return measured.map(({ change, combination, curve, gain, subject }, i): RankedChange => {
    const draws = drawsOf.get(change.name) ?? null;
    const { baseline } = responses;
    const notModelled = Math.abs(gain.pct) <= LEAST_GAIN_PCT ? leftOutOfModel(change) : null;
    const saysNothing = draws === null || notModelled !== null;
    const shares =
      saysNothing || baseline === null || subject === null ? null : varianceShares(baseline, subject);
    return {
      name: change.name,
      bandGainPct: gain.pct,
      bandGainKw: gain.kw,
      sigmaPct: draws === null ? null : standardDeviation(draws),
      chanceOfGain: draws === null ? null : shareAbove(draws, 0),
      chanceResolvable: draws === null ? null : shareAbove(draws, resolvablePct(dyno)),
      peakPowerGainPct: peakGain(base, curve, 'powerKw'),
      peakTorqueGainPct: peakGain(base, curve, 'torqueNm'),
      ...worstLoss(base, curve),
      tieGroup: groups[i],
      cautions: cautionsOf(base, curve),
      breaches: newBreaches(own, limitBreaches(combination, curve)),
      notModelled,
      gainKwPerHour: each(gain.kw, change.hours),
      gainKwPerCost: each(gain.kw, change.cost),
      pullsNeeded: pullsNeeded(gain.pct, dyno.repeatabilityPct),
      mattersMost: shares === null ? null : mattersMost(shares, unknowns.all),
      modelShare: shares?.model ?? null,
      cost: change.cost,
      hours: change.hours,
      reversible: change.reversible,
      bySpeed: gainsBySpeed(base, curve, spreads.changes.get(change.name)),
    };
  });
}

/** A gain for each hour or coin of it; null without one. */
function each(gainKw: number, spent: number | null): number | null {
  return spent !== null && spent > 0 && gainKw > 0 ? gainKw / spent : null;
}

function gainsBySpeed(
  base: WholeCurve,
  curve: WholeCurve,
  spreadAt: SpreadAt = () => null,
): readonly GainAtSpeed[] {
  return base.points.map(({ rpm, torqueNm: before }, i) => {
    const after = curve.points[i].torqueNm;
    const spread = spreadAt(rpm);
    return {
      rpm,
      gainNm: after - before,
      gainPct: percent(before, after),
      sigmaNm: spread === null ? null : before * spread.torque,
      sigmaPct: spread === null ? null : 100 * spread.ratio,
    };
  });
}

/** Draws of each gain [%] about the gain as forecast with the fine mesh at all speeds. */
function gainDraws(
  { responses, seed, unknowns }: RankStudy,
  nominal: ReadonlyMap<string, number>,
): ReadonlyMap<string, Float64Array> {
  const { baseline } = responses;
  if (baseline === null || !responses.complete) return new Map();
  const known = responses.candidates.filter((subject) => subject !== null);
  const { gains } = pairedDraws(baseline, known, { seed, correlated: unknowns.calibrated });
  return new Map(
    known.map((subject, i) => {
      const middle = percent(baseline.power, subject.power);
      return [subject.name, gains[i].map((gain) => gain - middle + (nominal.get(subject.name) ?? middle))];
    }),
  );
}

function peakGain(base: WholeCurve, curve: WholeCurve, of: 'powerKw' | 'torqueNm'): number {
  const peak = ({ points }: WholeCurve): number => topOf(points.map((p) => ({ x: p.rpm, y: p[of] }))).y;
  return percent(peak(base), peak(curve));
}

function worstLoss(base: WholeCurve, curve: WholeCurve): Pick<RankedChange, 'worstLossPct' | 'worstLossRpm'> {
  let worst: Pick<RankedChange, 'worstLossPct' | 'worstLossRpm'> = { worstLossPct: 0, worstLossRpm: null };
  base.points.forEach(({ rpm, torqueNm }, i) => {
    const pct = percent(torqueNm, curve.points[i].torqueNm);
    if (pct < worst.worstLossPct) worst = { worstLossPct: pct, worstLossRpm: rpm };
  });
  return worst;
}

/** Below this share of a variance no unknown stands out. */
const WORTH_NAMING = 0.1;

function mattersMost(shares: VarianceShares, unknowns: readonly Unknown[]): MattersMost | null {
  const [first] = shares.unknowns;
  const unknown = unknowns.find(({ id }) => id === first?.id);
  if (first === undefined || unknown === undefined || first.share < WORTH_NAMING) return null;
  return { path: unknown.path, what: unknown.id, share: first.share, perSigmaPct: first.perSigma };
}
