/**
 * Torque gained or lost against a reference, speed by speed, with what is not known of it and what a dyno can tell: in one drawing, or in
 * a small one each where they are many.
 */
import { fixed } from '../../render/fixed.ts';
import { signed } from '../../render/signed.ts';
import type { Column } from '../../render/table.ts';
import { SHOWN, type UnitSystem } from '../../render/units.ts';
import type { Colour } from '../draw/palette.ts';
import type { Layer, Shape } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';
import {
  FAR_RPM,
  farRemark,
  MOST_TOGETHER,
  SPEED_AXIS,
  seriesColour,
  seriesName,
  seriesShape,
} from './bySpeed.ts';

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
  const ribbonOf = ({ byRpm, sigmaNm }: NamedDifference, name: string | null, colour: Colour): Layer[] =>
    sigmaNm === null || sigmaNm.every((sigma) => sigma === null)
      ? []
      : [
          {
            kind: 'ribbon',
            name,
            colour,
            points: byRpm.flatMap((d, k) => {
              const sigma = sigmaNm[k];
              return sigma === null
                ? []
                : [{ x: d.rpm, low: torque(d.torqueNm - sigma), high: torque(d.torqueNm + sigma) }];
            }),
          },
        ];
  const lineOf = ({ byRpm }: NamedDifference, name: string, colour: Colour, shape?: Shape): Layer => ({
    kind: 'line',
    name,
    points: byRpm.map((d) => ({ x: d.rpm, y: torque(d.torqueNm) })),
    colour,
    ...(shape === undefined ? {} : { shape }),
    marked: true,
    far: FAR_RPM,
  });
  const axis = { title: `torque against ${seriesName(reference)}, ${torqueUnit}`, zero: true };
  const zero: Layer = { kind: 'rule', name: null, y: 0, colour: 'ink' };
  return {
    id: 'difference',
    title: 'Difference by speed',
    description: `Torque more or less than ${seriesName(reference)}. ${(others.length > MOST_TOGETHER ? farthest(others) : others).map(extremes).join(' ')}${remark === '' ? '' : ` ${remark}`}${farRemark(rpm)}`,
    drawing:
      others.length > MOST_TOGETHER
        ? {
            kind: 'panels',
            panels: {
              x: SPEED_AXIS,
              y: axis,
              panels: others.map((one) => ({
                title: seriesName(one.name),
                layers: [
                  ...strip,
                  ...ribbonOf(one, 'one standard deviation', 'a'),
                  zero,
                  lineOf(one, 'with the change', 'a'),
                ],
              })),
            },
          }
        : {
            kind: 'plot',
            plot: {
              x: SPEED_AXIS,
              y: axis,
              layers: [
                ...strip,
                ...others.flatMap((one, i) =>
                  ribbonOf(one, i === 0 ? 'one standard deviation' : null, seriesColour(firstColour + i)),
                ),
                zero,
                ...others.map((one, i) =>
                  lineOf(
                    one,
                    seriesName(one.name),
                    seriesColour(firstColour + i),
                    seriesShape(firstColour + i),
                  ),
                ),
              ],
            },
          },
    table: figureTable(
      columnsOf(others, rpm, units),
      rpm.map((_, i) => i),
    ),
  };
}

/** Speed, then each difference with its percentage and what is not known of it. */
function columnsOf(
  others: readonly NamedDifference[],
  rpm: readonly number[],
  units: UnitSystem,
): readonly Column<number>[] {
  const { torque, torqueUnit } = SHOWN[units];
  return [
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
}

function extremes({ name, byRpm }: NamedDifference): string {
  const most = byRpm.reduce((a, b) => (b.torquePct > a.torquePct ? b : a));
  const least = byRpm.reduce((a, b) => (b.torquePct < a.torquePct ? b : a));
  return `${seriesName(name)}: from ${signed(least.torquePct, 1)} % at ${fixed(least.rpm)} rpm to ${signed(most.torquePct, 1)} % at ${fixed(most.rpm)} rpm.`;
}

/** The one that gains most at some speed, and the one that loses most. */
function farthest(others: readonly NamedDifference[]): readonly NamedDifference[] {
  const most = ({ byRpm }: NamedDifference): number => Math.max(...byRpm.map(({ torquePct }) => torquePct));
  const least = ({ byRpm }: NamedDifference): number => Math.min(...byRpm.map(({ torquePct }) => torquePct));
  const gains = others.reduce((a, b) => (most(b) > most(a) ? b : a));
  const loses = others.reduce((a, b) => (least(b) < least(a) ? b : a));
  return gains === loses ? [gains] : [gains, loses];
}
