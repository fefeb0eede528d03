/** Torque gained or lost against a reference, speed by speed, with what is not known of it and what a dyno can tell. */
import { fixed } from '../../render/fixed.ts';
import { signed } from '../../render/signed.ts';
import type { Column } from '../../render/table.ts';
import { SHOWN, type UnitSystem } from '../../render/units.ts';
import type { Layer } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';
import { SPEED_AXIS, seriesColour, seriesDash, seriesName } from './bySpeed.ts';

export interface NamedDifference {
  readonly name: string;
  readonly byRpm: readonly { readonly rpm: number; readonly torqueNm: number; readonly torquePct: number }[];
  /** One standard deviation of the difference, speed by speed [N m]; null where it was not worked out. */
  readonly sigmaNm: readonly (number | null)[] | null;
}

export interface DifferenceOptions {
  /** What the others are held against. */
  readonly reference: string;
  /** Of the reference, speed by speed [N m]. */
  readonly referenceTorqueNm: readonly number[];
  /** Smallest difference that the dyno tells [%]; null to leave it out. */
  readonly resolvablePct: number | null;
  /** Place in the colours of the report of the first of `others`. */
  readonly firstColour: number;
  /** Closes the description. */
  readonly remark?: string;
}

export function differenceBySpeed(
  others: readonly NamedDifference[],
  { reference, referenceTorqueNm, resolvablePct, firstColour, remark = '' }: DifferenceOptions,
  units: UnitSystem,
): Figure {
  const { torque, torqueUnit } = SHOWN[units];
  const rpm = others[0].byRpm.map((d) => d.rpm);
  const strip: Layer[] =
    resolvablePct === null
      ? []
      : [
          {
            kind: 'ribbon',
            name: `less than a dyno shows, ${fixed(resolvablePct, 2)} %`,
            colour: 'soft',
            points: rpm.map((x, i) => {
              const high = torque((referenceTorqueNm[i] * resolvablePct) / 100);
              return { x, low: -high, high };
            }),
          },
        ];
  const ribbons = others.flatMap(({ byRpm, sigmaNm }, i): Layer[] =>
    sigmaNm === null || sigmaNm.every((sigma) => sigma === null)
      ? []
      : [
          {
            kind: 'ribbon',
            name: i === 0 ? 'one standard deviation' : null,
            colour: seriesColour(firstColour + i),
            points: byRpm.flatMap((d, k) => {
              const sigma = sigmaNm[k];
              return sigma === null
                ? []
                : [{ x: d.rpm, low: torque(d.torqueNm - sigma), high: torque(d.torqueNm + sigma) }];
            }),
          },
        ],
  );
  const lines = others.map(
    ({ name, byRpm }, i): Layer => ({
      kind: 'line',
      name: seriesName(name),
      points: byRpm.map((d) => ({ x: d.rpm, y: torque(d.torqueNm) })),
      colour: seriesColour(firstColour + i),
      dash: seriesDash(firstColour + i),
      marked: true,
    }),
  );
  const columns: Column<number>[] = [
    { name: 'speed', unit: 'rpm', cell: (i) => fixed(rpm[i]) },
    ...others.flatMap(({ name, byRpm, sigmaNm }) => [
      {
        name: seriesName(name),
        unit: torqueUnit,
        cell: (i: number) => signed(torque(byRpm[i].torqueNm), 1),
      },
      { name: seriesName(name), unit: '%', cell: (i: number) => signed(byRpm[i].torquePct, 1) },
      ...(sigmaNm === null
        ? []
        : [
            {
              name: '+/-',
              unit: torqueUnit,
              cell: (i: number) => {
                const sigma = sigmaNm[i];
                return sigma === null ? '' : fixed(torque(sigma), 1);
              },
            },
          ]),
    ]),
  ];
  return {
    id: 'difference',
    title: 'Difference by speed',
    description: `Torque more or less than ${seriesName(reference)}. ${others.map(extremes).join(' ')}${remark === '' ? '' : ` ${remark}`}`,
    drawing: {
      kind: 'plot',
      plot: {
        x: SPEED_AXIS,
        y: { title: `torque against ${seriesName(reference)}, ${torqueUnit}`, zero: true },
        layers: [...strip, ...ribbons, { kind: 'rule', name: null, y: 0, colour: 'ink' }, ...lines],
      },
    },
    table: figureTable(
      columns,
      rpm.map((_, i) => i),
    ),
  };
}

function extremes({ name, byRpm }: NamedDifference): string {
  const most = byRpm.reduce((a, b) => (b.torquePct > a.torquePct ? b : a));
  const least = byRpm.reduce((a, b) => (b.torquePct < a.torquePct ? b : a));
  return `${seriesName(name)}: from ${signed(least.torquePct, 1)} % at ${fixed(least.rpm)} rpm to ${signed(most.torquePct, 1)} % at ${fixed(most.rpm)} rpm.`;
}
