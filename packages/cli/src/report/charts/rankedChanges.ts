/** Changes by their gain, each with its error, beside what the dyno can tell. */

import type { RankingResult } from '@valvetide/core';
import { markedName } from '../../render/breaches.ts';
import { counted } from '../../render/counted.ts';
import { fixed } from '../../render/fixed.ts';
import { gainDecimals } from '../../render/gainDecimals.ts';
import { plainShort } from '../../render/plain.ts';
import { rankedColumns } from '../../render/rankingText.ts';
import { signed } from '../../render/signed.ts';
import { SHOWN, type UnitSystem } from '../../render/units.ts';
import { type Figure, figureTable } from '../figure.ts';

export function rankedChanges(ranking: RankingResult, units: UnitSystem): Figure {
  const { changes, dyno } = ranking;
  const { power, powerUnit } = SHOWN[units];
  const ties = Math.max(0, ...changes.map(({ tieGroup }) => tieGroup));
  return {
    id: 'ranking',
    title: 'Changes by their gain',
    description: `Mean power over the band gained by each change alone; the error bar is one standard deviation either way. Shaded: less than the ${fixed(dyno.resolvablePct, 2)} % that ${dyno.pulls} pulls a side can show. ${ties === changes.length ? 'The order is settled.' : `${counted(ties, 'group')} of changes; within a group the order is not settled.`}`,
    drawing: {
      kind: 'rows',
      rows: {
        title: 'gain of mean power, %',
        noise: dyno.resolvablePct,
        rows: changes.map(({ name, bandGainPct, bandGainKw, sigmaPct, tieGroup, notModelled, breaches }) => ({
          ...(ties === changes.length ? {} : { group: `tie ${tieGroup}` }),
          name: markedName(plainShort(name, 100), { breaches }),
          value: bandGainPct,
          error: sigmaPct === null ? null : [bandGainPct - sigmaPct, bandGainPct + sigmaPct],
          figure: notModelled === null ? `${signed(power(bandGainKw), 1)} ${powerUnit}` : 'not modelled',
          colour: bandGainPct < 0 ? 'b' : 'a',
        })),
      },
    },
    table: figureTable(rankedColumns(units, gainDecimals(changes)), changes),
  };
}
