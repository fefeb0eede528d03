/** A study of restrictions as CSV: one line per combination, speed and element. */
import type { RestrictionsResult } from '@valvetide/core';
import { type CsvColumn, csvTable, warningsCell } from './csv.ts';

type State = RestrictionsResult['states'][number];
type Element = State['elements'][number];

interface FreedAtSpeed {
  readonly name: string;
  readonly point: NonNullable<State['points']>[number];
  readonly element: Element;
  readonly gain: NonNullable<Element['byRpm']>[number];
  readonly governing: boolean;
}

/** What was not run, or lost, is left out. */
export function restrictionsCsv({ states, warnings, fidelity, correction }: RestrictionsResult): string {
  const columns: readonly CsvColumn<FreedAtSpeed>[] = [
    ['combination', ({ name }) => name],
    ['rpm', ({ point }) => point.rpm],
    ['torqueNm', ({ point }) => point.torqueNm],
    ['element', ({ element }) => element.element],
    ['torqueGainNm', ({ gain }) => gain.torqueNm],
    ['torqueGainPct', ({ gain }) => gain.torquePct],
    ['alreadyFree', ({ element }) => element.alreadyFree],
    ['governing', ({ governing }) => governing],
    ['depressionPct', ({ point }) => point.fillingLoss.depressionPct],
    ['warmthPct', ({ point }) => point.fillingLoss.warmthPct],
    ['residualPct', ({ point }) => point.fillingLoss.residualPct],
    ['settled', ({ point, gain }) => point.status === 'settled' && gain.status === 'settled'],
    ['warnings', () => warningsCell(warnings)],
    ['fidelity', () => fidelity],
    ['correctionStandard', () => correction],
  ];
  return csvTable(columns, states.flatMap(rowsOf));
}

function rowsOf({ name, points, elements, governing }: State): readonly FreedAtSpeed[] {
  return (points ?? []).flatMap((point, i) =>
    elements.flatMap((element): readonly FreedAtSpeed[] => {
      const gain = element.byRpm?.find(({ rpm }) => rpm === point.rpm);
      return gain === undefined
        ? []
        : [{ name, point, element, gain, governing: governing[i].element === element.element }];
    }),
  );
}
