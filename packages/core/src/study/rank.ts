/** Ranks changes of a combination: alone, in pairs, together and within a budget, with what isn't known of each gain. */
import type { Cancellation } from '../base/cancellation.ts';
import { DomainError } from '../base/errors.ts';
import { VERSION } from '../base/version.ts';
import type { Mesh } from '../combination/assemble.ts';
import type { Combination, Warning } from '../combination/combination.ts';
import type { Problem } from '../combination/problem.ts';
import { problemLine } from '../combination/problem.ts';
import type { SheetSource } from '../combination/sheet/readSheets.ts';
import type { Curve, Fidelity } from '../forecast/curve.ts';
import { inspectCombination } from '../forecast/inspection.ts';
import { accessOf } from './access.ts';
import { applyChanges } from './applyChanges.ts';
import { assignedValues } from './assignedValues.ts';
import { bandMean, type SpeedBand } from './band.ts';
import type { Baseline } from './baseline.ts';
import { type Budget, bestSubset } from './bestSubset.ts';
import { cautionsOf } from './cautions.ts';
import type { Change } from './change.ts';
import { DYNO, type Dyno, pullsNeeded, resolvablePct } from './dynoResolution.ts';
import { ForecastQueue } from './forecastQueue.ts';
import { interactionPct, interactionThresholdPct, verdictOf } from './interaction.ts';
import type { RunJobs } from './job.ts';
import {
  chanceAbove,
  chanceToBeat,
  pairedDraws,
  type Subject,
  spreadOf,
  varianceShares,
} from './pairedDraws.ts';
import { peakValue } from './peak.ts';
import { perturbed } from './perturbed.ts';
import type { MattersMost, RankedChange, RankedPair, RankedSet, Ranking } from './ranking.ts';
import {
  askFirst,
  expectedLater,
  measureResponses,
  type Responses,
  type ResponseWorld,
} from './responses.ts';
import { testOrder } from './testOrder.ts';
import { tieGroups } from './tieGroups.ts';
import { type Candidacy, type Unknown, unknownsOf } from './unknowns.ts';

/** What to rank by, and with what means. */
export interface RankOptions {
  /** Runs the forecasts, on this thread or on many. */
  readonly run: RunJobs;
  /** Default the band of an inspection. */
  readonly band?: SpeedBand;
  /** Speeds of the gains [1/min], rising; default five over the band, and beyond it where the engine's own band reaches further. */
  readonly rpm?: readonly number[];
  /** What may be spent. */
  readonly budget?: Budget;
  /** The dyno that is to test; default {@link DYNO}. */
  readonly dyno?: Dyno;
  /** Seed of the draws; default 1. */
  readonly seed?: number;
  readonly fidelity?: Fidelity;
  /** Text of a sheet by the name used in the file. */
  readonly sheet?: SheetSource | undefined;
  readonly signal?: Cancellation;
  /** Called after each forecast with how many are done and about how many there will be. */
  readonly onProgress?: (done: number, total: number) => void;
}

/** A ranking, or everything that is wrong with the changes. */
export type RankResult =
  | { readonly ok: true; readonly ranking: Ranking }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** Coarse enough to be quick; what it gets wrong is common to all it is compared with. */
const RESPONSE_MESH: Mesh = { intakeCell: 0.06, exhaustCell: 0.15 };
/** Middles of the thirds of the band. */
const RESPONSE_SHARES: readonly number[] = [1 / 6, 1 / 2, 5 / 6];
/** Points over the band that gains are averaged from. */
const GAIN_SHARES: readonly number[] = [0, 0.25, 0.5, 0.75, 1];

const NO_BUDGET: Budget = { cost: null, hours: null };

/**
 * Ranks changes by their gain in power averaged over a band.
 *
 * @throws {@link DomainError} where two changes have one name, or band, budget or dyno make no sense
 */
export async function rank(
  baseline: Baseline,
  changes: readonly Change[],
  options: RankOptions,
): Promise<RankResult> {
  const { run, sheet, signal, onProgress, fidelity, seed = 1, dyno = DYNO, budget = NO_BUDGET } = options;
  checkNames(changes);
  const resolvable = resolvablePct(dyno);
  const speeds = speedsOf(baseline, options);
  const problems: Problem[] = [];
  const candidacies = changes.flatMap((change): Candidacy[] => {
    const result = applyChanges(baseline, [change], { sheet });
    if (result.ok)
      return [{ change, combination: result.combination, values: assignedValues(baseline, [change], []) }];
    problems.push(...result.problems);
    return [];
  });
  if (problems.length > 0) return { ok: false, problems };

  const queue = new ForecastQueue(run, {
    ...(signal === undefined ? {} : { signal }),
    ...(onProgress === undefined ? {} : { onProgress }),
  });
  const fine = (name: string, combination: Combination): void =>
    queue.ask(name, { combination, rpm: speeds.gains, ...(fidelity === undefined ? {} : { fidelity }) });
  const coarse = (name: string, combination: Combination): void =>
    queue.ask(name, {
      combination,
      rpm: speeds.responses,
      mesh: RESPONSE_MESH,
      ...(fidelity === undefined ? {} : { fidelity }),
    });
  const unknowns = unknownsOf(baseline, candidacies);
  const world: ResponseWorld = {
    unknowns: unknowns.all,
    singly: unknowns.calibrated?.ids ?? [],
    changes,
    seed,
    queue,
    build: (applied, offsets) => perturbed(baseline, applied, offsets, sheet),
    ask: coarse,
  };
  const pairing = pairUp(baseline, changes, sheet);

  fine(BASELINE, baseline.combination);
  for (const { change, combination } of candidacies) fine(change.name, combination);
  for (const { a, b, combination } of pairing.pairs) coarse(pairKey(a, b), combination);
  askFirst(world);
  queue.expect(expectedLater(world) + 2);
  const responses = await measureResponses(world);

  const study: Study = {
    baseline,
    changes,
    dyno,
    resolvable,
    seed,
    speeds,
    queue,
    responses,
    unknowns,
    pairing,
  };
  const ranked = rankChanges(study);
  const pairs = rankPairs(study, ranked);
  const sets = await rankSets(study, ranked, pairs, budget, { fine, sheet });
  const order = orderOf(study, ranked, pairs);
  return {
    ok: true,
    ranking: {
      schemaVersion: 1,
      program: { name: 'valvetide', version: VERSION },
      combination: baseline.combination.name,
      seed,
      complete: queue.complete && signal?.aborted !== true,
      band: speeds.band,
      rpm: speeds.gains,
      dyno: { ...dyno, resolvablePct: resolvable },
      baseline: baselineFigures(study),
      changes: ranked,
      pairs,
      ...sets,
      order,
      assumed: baseline.combination.assumed,
      warnings: [
        ...(queue.curve(BASELINE)?.warnings ?? baseline.combination.warnings),
        ...pairing.warnings,
        ...stuckWarnings(responses, unknowns.all),
        ...budgetWarnings(changes, budget),
      ],
    },
  };
}

const BASELINE = 'fine: the baseline';
const pairKey = (a: string, b: string): string => `pair: ${[a, b].sort().join('\n')}`;

interface Speeds {
  readonly band: SpeedBand;
  readonly gains: readonly number[];
  readonly responses: readonly number[];
}

interface Pairing {
  readonly pairs: readonly { readonly a: string; readonly b: string; readonly combination: Combination }[];
  readonly warnings: readonly Warning[];
}

interface Study {
  readonly baseline: Baseline;
  readonly changes: readonly Change[];
  readonly dyno: Dyno;
  readonly resolvable: number;
  readonly seed: number;
  readonly speeds: Speeds;
  readonly queue: ForecastQueue;
  readonly responses: Responses;
  readonly unknowns: ReturnType<typeof unknownsOf>;
  readonly pairing: Pairing;
}

function checkNames(changes: readonly Change[]): void {
  if (!(changes.length > 0)) throw new DomainError('changes', changes.length, 'one change or more');
  const names = changes.map(({ name }) => name);
  const twice = names.find((name, i) => names.indexOf(name) < i);
  if (twice !== undefined) throw new DomainError('changes', twice, 'changes with names of their own');
}

function speedsOf(baseline: Baseline, { band: asked, rpm }: RankOptions): Speeds {
  const usual =
    asked === undefined || rpm === undefined ? inspectCombination(baseline.combination).band : null;
  const band = asked ?? {
    fromRpm: rpm?.[0] ?? usual?.fromRpm ?? Number.NaN,
    toRpm: rpm?.[rpm.length - 1] ?? usual?.toRpm ?? Number.NaN,
  };
  if (!(band.fromRpm > 0 && band.toRpm > band.fromRpm))
    throw new DomainError('band', band.fromRpm, `a band that rises, to ${band.toRpm}`);
  const at = (share: number): number => Math.round(band.fromRpm + share * (band.toRpm - band.fromRpm));
  // A change may lose where nobody asked for its gain.
  const margin = 0.1 * (band.toRpm - band.fromRpm);
  const below = usual !== null && usual.fromRpm < band.fromRpm - margin ? [Math.round(usual.fromRpm)] : [];
  const above = usual !== null && usual.toRpm > band.toRpm + margin ? [Math.round(usual.toRpm)] : [];
  return {
    band,
    gains: rpm ?? [...below, ...GAIN_SHARES.map(at), ...above],
    responses: RESPONSE_SHARES.map(at),
  };
}

/** Every pair that can be had together; one that can't although nothing says so is warned of. */
function pairUp(baseline: Baseline, changes: readonly Change[], sheet: SheetSource | undefined): Pairing {
  const pairs: Pairing['pairs'][number][] = [];
  const warnings: Warning[] = [];
  changes.forEach((a, i) => {
    for (const b of changes.slice(i + 1)) {
      if (a.insteadOf !== null && a.insteadOf === b.insteadOf) continue;
      const result = applyChanges(baseline, [a, b], { sheet });
      if (result.ok) pairs.push({ a: a.name, b: b.name, combination: result.combination });
      else warnings.push(impossible([a.name, b.name], result.problems));
    }
  });
  return { pairs, warnings };
}

function impossible(names: readonly string[], problems: readonly Problem[]): Warning {
  const message = `${[...names]
    .sort()
    .map((name) => `'${name}'`)
    .join(' and ')} can't be had together: ${problems.map(problemLine).join('; ')}`;
  return { code: 'pair-impossible', path: '', message };
}

interface Gain {
  readonly pct: number;
  readonly kw: number;
}

function gainOf({ queue, speeds }: Study, curve: Curve): Gain {
  const base = queue.curve(BASELINE);
  if (base === null) throw new Error('no baseline to compare with');
  const before = bandMean(base.points, speeds.band).powerKw;
  const after = bandMean(curve.points, speeds.band).powerKw;
  return { pct: 100 * (after / before - 1), kw: after - before };
}

function rankChanges(study: Study): readonly RankedChange[] {
  const { queue, changes, responses, seed, unknowns, dyno, resolvable } = study;
  const base = queue.curve(BASELINE);
  if (base === null) return [];
  const measured = changes.flatMap((change, i) => {
    const curve = queue.curve(change.name);
    return curve === null
      ? []
      : [{ change, curve, gain: gainOf(study, curve), subject: responses.candidates[i] }];
  });
  measured.sort((a, b) => b.gain.pct - a.gain.pct || (a.change.name < b.change.name ? -1 : 1));
  const { baseline } = responses;
  const known = measured.flatMap(({ subject }) => (subject === null ? [] : [subject]));
  const { gains } =
    baseline === null
      ? { gains: [] }
      : pairedDraws(baseline, known, { seed, correlated: unknowns.calibrated });
  /** Draws about the gain as forecast with the fine mesh at all speeds. */
  const drawsOf = new Map(
    known.map((subject, i) => {
      const entry = measured.find((m) => m.subject === subject);
      const nominal = baseline === null ? 0 : 100 * (subject.power / baseline.power - 1);
      return [subject.name, gains[i].map((gain) => gain - nominal + (entry?.gain.pct ?? 0))];
    }),
  );
  const beats = (one: number, other: number): number => {
    const a = drawsOf.get(measured[one].change.name);
    const b = drawsOf.get(measured[other].change.name);
    return a === undefined || b === undefined ? 0.5 : chanceToBeat(a, b);
  };
  const groups = tieGroups(measured.length, beats);
  return measured.map(({ change, curve, gain, subject }, i): RankedChange => {
    const draws = drawsOf.get(change.name) ?? null;
    return {
      name: change.name,
      bandGainPct: gain.pct,
      bandGainKw: gain.kw,
      sigmaPct: draws === null ? null : spreadOf(draws),
      chanceOfGain: draws === null ? null : chanceAbove(draws, 0),
      chanceResolvable: draws === null ? null : chanceAbove(draws, resolvable),
      peakPowerGainPct: peakGain(base, curve, 'powerKw'),
      peakTorqueGainPct: peakGain(base, curve, 'torqueNm'),
      ...worstLoss(base, curve),
      tieGroup: groups[i],
      cautions: cautionsOf(base, curve),
      pullsNeeded: pullsNeeded(gain.pct, dyno.repeatabilityPct),
      mattersMost:
        baseline === null || subject === null ? null : mattersMost(baseline, subject, unknowns.all),
      cost: change.cost,
      hours: change.hours,
      reversible: change.reversible,
    };
  });
}

function peakGain(base: Curve, curve: Curve, of: 'powerKw' | 'torqueNm'): number {
  const peak = ({ points }: Curve): number => peakValue(points.map((p) => ({ x: p.rpm, y: p[of] })));
  return 100 * (peak(curve) / peak(base) - 1);
}

function worstLoss(base: Curve, curve: Curve): Pick<RankedChange, 'worstLossPct' | 'worstLossRpm'> {
  let worst: { worstLossPct: number; worstLossRpm: number | null } = { worstLossPct: 0, worstLossRpm: null };
  base.points.forEach(({ rpm, torqueNm }, i) => {
    const pct = 100 * (curve.points[i].torqueNm / torqueNm - 1);
    if (pct < worst.worstLossPct) worst = { worstLossPct: pct, worstLossRpm: rpm };
  });
  return worst;
}

/** Below this share of a variance no unknown stands out. */
const WORTH_NAMING = 0.1;

function mattersMost(baseline: Subject, subject: Subject, unknowns: readonly Unknown[]): MattersMost | null {
  const [first] = varianceShares(baseline, subject);
  const unknown = unknowns.find(({ id }) => id === first?.id);
  if (first === undefined || unknown === undefined || first.share < WORTH_NAMING) return null;
  return { path: unknown.path, what: unknown.id, share: first.share, perSigmaPct: first.perSigma };
}

function rankPairs(study: Study, ranked: readonly RankedChange[]): readonly RankedPair[] {
  const { queue, responses, pairing } = study;
  const place = new Map(ranked.map((change, i) => [change.name, i]));
  const power = new Map(
    responses.candidates.flatMap((s) => (s === null ? [] : [[s.name, s.power] as const])),
  );
  const base = responses.baseline?.power;
  const pairs = pairing.pairs.flatMap((pair): RankedPair[] => {
    const [a, b] = [pair.a, pair.b].sort((x, y) => (place.get(x) ?? 0) - (place.get(y) ?? 0));
    const [one, other] = [ranked[place.get(a) ?? -1], ranked[place.get(b) ?? -1]];
    const both = queue.meanPower(pairKey(a, b));
    const [pa, pb] = [power.get(a), power.get(b)];
    if (base === undefined || both === null || pa === undefined || pb === undefined) return [];
    if (one === undefined || other === undefined) return [];
    const pct = (p: number): number => 100 * (p / base - 1);
    const interaction = interactionPct({ a: pct(pa), b: pct(pb), both: pct(both) });
    const threshold = interactionThresholdPct([one.sigmaPct, other.sigmaPct]);
    return [
      {
        a,
        b,
        togetherPct: one.bandGainPct + other.bandGainPct + interaction,
        interactionPct: interaction,
        verdict: verdictOf(interaction, threshold),
      },
    ];
  });
  return pairs.sort(
    (x, y) =>
      Math.abs(y.interactionPct) - Math.abs(x.interactionPct) ||
      (pairKey(x.a, x.b) < pairKey(y.a, y.b) ? -1 : 1),
  );
}

interface SetTools {
  readonly fine: (name: string, combination: Combination) => void;
  readonly sheet: SheetSource | undefined;
}

async function rankSets(
  study: Study,
  ranked: readonly RankedChange[],
  pairs: readonly RankedPair[],
  budget: Budget,
  { fine, sheet }: SetTools,
): Promise<Pick<Ranking, 'together' | 'best'>> {
  const { queue, changes, baseline } = study;
  const index = new Map(pairs.map((pair) => [pairKey(pair.a, pair.b), pair.interactionPct]));
  const interaction = (i: number, j: number): number | null =>
    index.get(pairKey(ranked[i].name, ranked[j].name)) ?? null;
  const all: number[] = [];
  ranked.forEach((_, i) => {
    if (all.every((j) => interaction(i, j) !== null)) all.push(i);
  });
  const choices = ranked.map(({ name, bandGainPct, cost, hours }) => ({
    name,
    gainPct: bandGainPct,
    cost,
    hours,
  }));
  const best = bestSubset(choices, interaction, budget)?.members ?? [];
  const named = (members: readonly number[]): readonly Change[] =>
    members.flatMap((i) => changes.filter(({ name }) => name === ranked[i].name));
  const key = (members: readonly number[]): string =>
    members.length === 1
      ? ranked[members[0]].name
      : `set: ${members
          .map((i) => ranked[i].name)
          .sort()
          .join('\n')}`;
  for (const members of [all, best]) {
    if (members.length === 0) continue;
    const result = applyChanges(baseline, named(members), { sheet });
    if (result.ok) fine(key(members), result.combination);
  }
  await queue.run();
  const set = (members: readonly number[]): RankedSet | null => {
    const curve = members.length === 0 ? null : queue.curve(key(members));
    const base = queue.curve(BASELINE);
    if (curve === null || base === null) return null;
    const gain = gainOf(study, curve);
    const total = (of: 'cost' | 'hours'): number | null =>
      members.reduce<number | null>((sum, i) => {
        const own = ranked[i][of];
        return sum === null || own === null ? null : sum + own;
      }, 0);
    let addedUp = 0;
    members.forEach((i, n) => {
      addedUp += ranked[i].bandGainPct;
      for (const j of members.slice(0, n)) addedUp += interaction(i, j) ?? 0;
    });
    return {
      changes: members.map((i) => ranked[i].name),
      bandGainPct: gain.pct,
      bandGainKw: gain.kw,
      addedUpPct: addedUp,
      cost: total('cost'),
      hours: total('hours'),
      cautions: cautionsOf(base, curve),
    };
  };
  return { together: set(all), best: set(best) };
}

function orderOf(
  { changes, resolvable, dyno }: Study,
  ranked: readonly RankedChange[],
  pairs: readonly RankedPair[],
): Ranking['order'] {
  const candidates = ranked.flatMap((entry) => {
    const change = changes.find(({ name }) => name === entry.name);
    if (change === undefined) return [];
    const { name, bandGainPct, chanceOfGain, reversible, hours, tieGroup, pullsNeeded: pulls } = entry;
    const { insteadOf } = change;
    const access = accessOf(change);
    return [
      { name, gainPct: bandGainPct, chanceOfGain, access, reversible, hours, insteadOf, tieGroup, pulls },
    ];
  });
  return testOrder(candidates, pairs, { resolvablePct: resolvable, pulls: dyno.pulls });
}

function baselineFigures({ queue, speeds, responses, seed, unknowns }: Study): Ranking['baseline'] {
  const curve = queue.curve(BASELINE);
  if (curve === null) return null;
  const { powerKw, torqueNm } = bandMean(curve.points, speeds.band);
  const draws =
    responses.baseline === null
      ? null
      : pairedDraws(responses.baseline, [], { seed, correlated: unknowns.calibrated }).baseline;
  return {
    bandPowerKw: powerKw,
    bandTorqueNm: torqueNm,
    sigmaPct: draws === null ? null : 100 * spreadOf(draws),
  };
}

function stuckWarnings({ stuck }: Responses, unknowns: readonly Unknown[]): readonly Warning[] {
  return unknowns
    .filter(({ id }) => stuck.includes(id))
    .map(({ id, path }) => ({
      code: 'unknown-skipped',
      path,
      message: `${id} could not be moved by its own uncertainty, so the figures do not contain it`,
    }));
}

function budgetWarnings(changes: readonly Change[], { cost, hours }: Budget): readonly Warning[] {
  const silent = changes.filter(
    (change) => (cost !== null && change.cost === null) || (hours !== null && change.hours === null),
  );
  return silent.map(({ name }) => ({
    code: 'budget-unknown',
    path: '',
    message: `'${name}' states no ${cost !== null ? 'cost' : 'hours'}, so no budget can hold it`,
  }));
}
