/** The best builds by their gain, each with its error. */
import type { ChoiceResult } from '@valvetide/core';
import { buildColumns, buildText, numbered } from '../../render/chosenText.ts';
import { plainShort } from '../../render/plain.ts';
import { signed } from '../../render/signed.ts';
import { SHOWN, type UnitSystem } from '../../render/units.ts';
import { type Figure, figureTable } from '../figure.ts';

/** Null where nothing was chosen. */
export function bestBuilds({ builds }: ChoiceResult, units: UnitSystem): Figure | null {
  if (builds.length === 0) return null;
  const { power, powerUnit } = SHOWN[units];
  return {
    id: 'builds',
    title: 'The best builds',
    description: `Gain of each build; the error bar is one standard deviation either way. ${builds.map((build, i) => `${i + 1}: ${buildText(build)}`).join('. ')}.`,
    drawing: {
      kind: 'rows',
      rows: {
        title: 'gain, %',
        noise: 0,
        rows: builds.map((build, i) => ({
          group: String(i + 1),
          name: plainShort(buildText(build), 100),
          value: build.gainPct,
          error:
            build.sigmaPct === null ? null : [build.gainPct - build.sigmaPct, build.gainPct + build.sigmaPct],
          figure: `${signed(power(build.bandGainKw), 1)} ${powerUnit}`,
          colour: build.gainPct < 0 ? 'b' : 'a',
        })),
      },
    },
    table: figureTable(buildColumns(units), builds.map(numbered)),
  };
}
