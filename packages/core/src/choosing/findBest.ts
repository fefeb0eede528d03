/** The best of many builds with few of them judged: a spread of first builds, a model of them, then what may be better than the best. */
import { buildsOf, keyOf, type SearchSpace, sizeOf } from './buildSpace.ts';
import { type Build, type EffectModel, expected, firstWeights, fitEffects } from './effectModel.ts';
import { expectedGain, normalChanceAbove } from './expectedGain.ts';
import { firstBuilds } from './firstBuilds.ts';
import { walked } from './walks.ts';

/** How good a build is. */
export interface BuildVerdict {
  /** Larger is better; smooth also where a limit is passed, so that a model can follow it. */
  readonly worth: number;
  /** Whether it keeps the limits that only a forecast can tell. */
  readonly keepsLimits: boolean;
}

/** Judges builds: null where there can't be such a build, or nothing came of its forecast; undefined after an abort. */
export type Judge = (builds: readonly Build[]) => Promise<readonly (BuildVerdict | null | undefined)[]>;

/** How to search. */
export interface SearchOptions {
  readonly seed: number;
  /** How many of the best are to be known. */
  readonly wanted: number;
  /** Builds judged at most. */
  readonly most: number;
}

/** A build that was judged. */
export interface Judged {
  readonly build: Build;
  readonly verdict: BuildVerdict | null;
}

/** What a search found. */
export interface SearchOutcome {
  /** In the order they were judged. */
  readonly judged: readonly Judged[];
  /** Of the last round; null where every build was judged, or judging was broken off before. */
  readonly model: EffectModel | null;
  /** Builds that may be had, where there are few enough to list them. */
  readonly listed: readonly Build[] | null;
  /** Whether every build that may be had was judged. */
  readonly enumerated: boolean;
  /** Builds better than the last of those wanted that are to be expected among those not judged; 0 where all were. */
  readonly missing: number;
  /** False where judging was broken off. */
  readonly complete: boolean;
}

/** Spaces up to this size are judged whole: a search would not save much. */
const SMALL = 48;
/** Spaces up to this size are looked through build by build, larger ones by walking from build to build. */
const LISTED = 20_000;
/** Builds judged in a round, so few that each round learns from the last, and so many that threads are busy. */
const ROUND = 10;
/** Rounds end where fewer builds than this are to be expected among the unseen that beat the last of those wanted. */
const CONFIRMED = 0.05;
/** Searches; what is judged depends on the seed and on nothing else. */
export async function findBest(
  space: SearchSpace,
  judge: Judge,
  { seed, wanted, most }: SearchOptions,
): Promise<SearchOutcome> {
  const size = sizeOf(space);
  const listed = size <= LISTED ? buildsOf(space) : null;
  const judged: Judged[] = [];
  const known = new Set<string>();
  let complete = true;
  const run = async (builds: readonly Build[]): Promise<void> => {
    const fresh = builds.slice(0, most - judged.length);
    const verdicts = await judge(fresh);
    fresh.forEach((build, i) => {
      const verdict = verdicts[i];
      if (verdict === undefined) complete = false;
      else judged.push({ build, verdict });
      known.add(keyOf(build));
    });
  };
  const end = (model: EffectModel | null, missing: number): SearchOutcome => {
    const unseen = listed?.some((build) => !known.has(keyOf(build))) ?? true;
    return { judged, model, listed, enumerated: !unseen && complete, missing, complete };
  };
  if (listed !== null && listed.length <= Math.min(SMALL, most)) {
    await run(listed);
    return end(null, 0);
  }

  await run(firstBuilds(space, seed, listed?.length ?? size, most));
  let weights = firstWeights(space.factors);
  for (let round = 0; ; round++) {
    const sound = soundOf(judged);
    if (!complete || sound.length < 2) return end(null, size - judged.length);
    const passes = round === 0 ? 2 : 1;
    const builds = sound.map(({ build }) => build);
    const worths = sound.map(({ worth }) => worth);
    const model = fitEffects(space.factors, builds, worths, weights, passes);
    weights = model.weights;
    const bar = barOf(sound, wanted);
    const unseen = (listed ?? walked(space, model, sound, bar, seed, round)).filter(
      (build) => !known.has(keyOf(build)),
    );
    const hopes = unseen.map((build) => {
      const { mean, sigma } = expected(model, build);
      return { build, gain: expectedGain(mean, sigma, bar), chance: normalChanceAbove(mean, sigma, bar) };
    });
    const missing = hopes.reduce((sum, { chance }) => sum + chance, 0);
    if (missing < CONFIRMED || judged.length >= most) return end(model, missing);
    hopes.sort((a, b) => b.gain - a.gain);
    await run(hopes.slice(0, ROUND).map(({ build }) => build));
  }
}

interface Sound {
  readonly build: Build;
  readonly worth: number;
  readonly keepsLimits: boolean;
}

function soundOf(judged: readonly Judged[]): readonly Sound[] {
  return judged.flatMap(({ build, verdict }) => (verdict === null ? [] : [{ build, ...verdict }]));
}

/** What a build must beat: the last of those wanted among those that keep the limits. */
function barOf(sound: readonly Sound[], wanted: number): number {
  const kept = sound.filter(({ keepsLimits }) => keepsLimits).map(({ worth }) => worth);
  kept.sort((a, b) => b - a);
  return kept.length < wanted ? Math.min(...sound.map(({ worth }) => worth)) : kept[wanted - 1];
}
