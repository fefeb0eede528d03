/** The best builds with what is not known of them, drawn alike for all. */

import type { Fidelity } from '../assembly/symmetry.ts';
import type { Baseline } from '../changes/baseline.ts';
import type { Change } from '../changes/change.ts';
import { bandMean, type SpeedBand } from '../forecast/band.ts';
import type { WholeCurve } from '../forecast/wholeCurve.ts';
import { standardDeviation } from '../numerics/standardDeviation.ts';
import { responseSpeeds } from '../ranking/rankSpeeds.ts';
import { tieGroups } from '../ranking/tieGroups.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';
import { cautionsOf } from '../studies/cautions.ts';
import type { ForecastQueue } from '../studies/forecastQueue.ts';
import { percent } from '../studies/gain.ts';
import { appliedChange } from '../uncertainty/appliedChange.ts';
import { askFirst } from '../uncertainty/askedForecasts.ts';
import { chanceToBeat, shareAbove } from '../uncertainty/drawFigures.ts';
import { withModelError } from '../uncertainty/gainError.ts';
import { pairedDraws } from '../uncertainty/pairedDraws.ts';
import { measureResponses } from '../uncertainty/responses.ts';
import { responseWorld } from '../uncertainty/responseWorld.ts';
import { unknownsOf } from '../uncertainty/unknowns.ts';
import type { ChosenBuild, PricedBuild } from './choiceResult.ts';
import type { Build } from './effectModel.ts';
import type { ShelfAim } from './shelf.ts';
import { changesOf } from './shelfRules.ts';
import { buildName, type ShelfSpace } from './shelfSpace.ts';
import { gainsByAim, octaneOf, pistonSpeedOf } from './worth.ts';

/** What the best are worked out with. */
export interface TopMeans {
  readonly shelved: ShelfSpace;
  readonly aims: readonly ShelfAim[];
  readonly band: SpeedBand;
  readonly seed: number;
  readonly fidelity: Fidelity | undefined;
  readonly sheet: SheetSource | undefined;
  readonly queue: ForecastQueue;
  readonly base: WholeCurve;
  readonly curveOf: (build: Build) => WholeCurve | null;
  readonly priced: (build: Build) => PricedBuild | null;
}

/** The builds, best first as given, with their spreads and tie groups. */
export async function topBuilds(
  baseline: Baseline,
  best: readonly Build[],
  means: TopMeans,
): Promise<readonly ChosenBuild[]> {
  const { shelved, aims, band, base } = means;
  const found = best.flatMap((build) => {
    const priced = means.priced(build);
    const curve = means.curveOf(build);
    return priced === null || curve === null ? [] : [{ change: asOneChange(shelved, build), priced, curve }];
  });
  const draws = await drawsOf(
    baseline,
    found.map(({ change }) => change),
    new Map(found.map(({ change, priced }) => [change.name, priced.gainPct])),
    means,
  );
  const of = (i: number): Float64Array | undefined => draws.get(found[i].change.name);
  const ties = tieGroups(found.length, (one, other) => {
    const [a, b] = [of(one), of(other)];
    return a === undefined || b === undefined ? 0.5 : chanceToBeat(a, b);
  });
  return found.map(({ priced, curve }, i): ChosenBuild => {
    const own = of(i) ?? null;
    const altered = priced.choices.some(({ choice }) => choice !== null);
    return {
      ...priced,
      byAim: gainsByAim(base, curve, aims),
      bandGainKw: bandMean(curve.points, band).powerKw - bandMean(base.points, band).powerKw,
      sigmaPct: own === null || !altered ? null : standardDeviation(own),
      chanceOfGain: own === null || !altered ? null : shareAbove(own, 0),
      tieGroup: ties[i],
      octaneRequired: octaneOf(curve),
      pistonSpeedMs: pistonSpeedOf(curve),
      cautions: cautionsOf(base, curve),
    };
  });
}

/** Everything a build alters as one change, for what is not known of its parts. */
function asOneChange({ groups }: ShelfSpace, build: Build): Change {
  const changes = changesOf(groups, build);
  return {
    name: buildName(changes),
    edits: changes.flatMap(({ edits }) => edits),
    cost: null,
    hours: null,
    reversible: changes.every(({ reversible }) => reversible),
    insteadOf: null,
  };
}

/** Draws of each gain [%], by the name of the build, about the gain as forecast with the fine mesh. */
async function drawsOf(
  baseline: Baseline,
  changes: readonly Change[],
  nominal: ReadonlyMap<string, number>,
  { band, seed, fidelity, sheet, queue }: TopMeans,
): Promise<ReadonlyMap<string, Float64Array>> {
  if (changes.length === 0 || !queue.complete) return new Map();
  const applied = changes.flatMap((change) => {
    const one = appliedChange(baseline, change, { sheet, effectless: 'allow' });
    return one.ok ? [one.value] : [];
  });
  const unknowns = unknownsOf(baseline, applied);
  const rpm = responseSpeeds(band);
  const world = responseWorld(baseline, changes, unknowns, { queue, seed, rpm, fidelity, sheet });
  askFirst(world);
  const responses = withModelError(await measureResponses(world));
  if (responses.baseline === null || !responses.complete) return new Map();
  const { baseline: own } = responses;
  const known = responses.candidates.filter((subject) => subject !== null);
  const { gains } = pairedDraws(own, known, { seed, correlated: unknowns.calibrated });
  return new Map(
    known.map((subject, i) => {
      const shift = (nominal.get(subject.name) ?? 0) - percent(own.power, subject.power);
      return [subject.name, gains[i].map((gain) => gain + shift)];
    }),
  );
}
