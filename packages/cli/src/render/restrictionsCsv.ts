/** A study of restrictions as CSV: one line per combination, speed and element. */
import type { RestrictionsResult } from '@valvetide/core';
import { csv, warningsCell } from './csv.ts';

/** What was not run, or lost, is left out. */
export function restrictionsCsv({ states, warnings, fidelity, correction }: RestrictionsResult): string {
  const header = [
    'combination',
    'rpm',
    'torqueNm',
    'element',
    'torqueGainNm',
    'torqueGainPct',
    'alreadyFree',
    'governing',
    'depressionPct',
    'warmthPct',
    'residualPct',
    'settled',
    'warnings',
    'fidelity',
    'correctionStandard',
  ];
  const rows = states.flatMap(({ name, points, elements, governing }) =>
    (points ?? []).flatMap((point, i) =>
      elements.flatMap(({ element, alreadyFree, byRpm }) => {
        const gain = byRpm?.find(({ rpm }) => rpm === point.rpm);
        if (gain === undefined) return [];
        const { depressionPct, warmthPct, residualPct } = point.fillingLoss;
        return [
          [
            name,
            point.rpm,
            point.torqueNm,
            element,
            gain.torqueNm,
            gain.torquePct,
            alreadyFree,
            governing[i].element === element,
            depressionPct,
            warmthPct,
            residualPct,
            point.status === 'settled' && gain.status === 'settled',
            warningsCell(warnings),
            fidelity,
            correction,
          ],
        ];
      }),
    ),
  );
  return csv([header, ...rows]);
}
