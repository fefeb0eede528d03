/** What a ranking warns of: speeds without figures, unknowns that could not be moved, changes that no budget can hold. */
import type { Change } from '../changes/change.ts';
import type { Warning } from '../combination/combination.ts';
import type { Responses } from '../uncertainty/responses.ts';
import type { Unknown } from '../uncertainty/unknown.ts';
import type { Budget } from './bestSubset.ts';
import { BASELINE, changeKey, type RankStudy } from './rankStudy.ts';

/** Of a ranking with its forecasts run, those of the file and of its pairs among them. */
export function rankWarnings(study: RankStudy, budget: Budget): readonly Warning[] {
  const { baseline, queue, pairing, responses, unknowns, changes } = study;
  return [
    ...(queue.curve(BASELINE)?.warnings ?? baseline.combination.warnings),
    ...lostWarnings(study),
    ...pairing.warnings,
    ...stuckWarnings(responses, unknowns.all),
    ...budgetWarnings(changes, budget),
  ];
}

function lostWarnings({ queue, changes }: RankStudy): readonly Warning[] {
  const { leftOut } = queue;
  const curves = [
    { key: BASELINE, what: 'the engine as it is', so: 'so that nothing can be ranked' },
    ...changes.map(({ name }) => ({
      key: changeKey(name),
      what: `'${name}'`,
      so: 'so that it is not ranked',
    })),
  ];
  return curves.flatMap(({ key, what, so }): Warning[] => {
    const speeds = leftOut.filter(({ curve }) => curve === key).map(({ rpm }) => rpm);
    return speeds.length === 0
      ? []
      : [{ code: 'lost', path: '', message: `no figures of ${what} at ${speeds.join(', ')} rpm, ${so}` }];
  });
}

function stuckWarnings({ stuck }: Responses, unknowns: readonly Unknown[]): readonly Warning[] {
  return unknowns
    .filter(({ id }) => stuck.includes(id))
    .map(({ id, path }) => ({
      code: 'unknown-skipped',
      path,
      message: `the engine could not be forecast with ${id} off by its spread, so no uncertainty here contains it`,
    }));
}

function budgetWarnings(changes: readonly Change[], { cost, hours }: Budget): readonly Warning[] {
  const silent = changes.filter(
    (change) => (cost !== null && change.cost === null) || (hours !== null && change.hours === null),
  );
  return silent.map(({ name }) => ({
    code: 'budget-unknown',
    path: '',
    message: `'${name}' states no ${cost !== null ? 'cost' : 'hours'}, so it is in no set that must fit the budget`,
  }));
}
