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
  /** Smallest difference that the dyno tells [%]. */
  readonly resolvablePct: number;
  /** Place in the colours of the report of the first of `others`. */
  readonly firstColour: number;
  /** Closes the description. */
  readonly remark?: string;
}

export function differenceBySpeed(
  others: readonly NamedDifference[],
  options: DifferenceOptions,
  units: UnitSystem,
): Figure {
  const rpm = others[0].byRpm.map((d) => d.rpm);
  const reference = seriesName(options.reference);
  const { remark = '' } = options;
  const told = others.length > MOST_TOGETHER ? farthest(others) : others;
  return {
    id: 'difference',
    title: 'Difference by speed',
    description: `Torque more or less than ${reference}. ${told.map(extremes).join(' ')}${remark === '' ? '' : ` ${remark}`}${farRemark(rpm)}`,
    drawing: drawingOf(others, options, units),
    table: figureTable(
      columnsOf(others, rpm, units),
      rpm.map((_, i) => i),
    ),
  };
}

const ZERO: Layer = { kind: 'rule', name: null, y: 0, colour: 'ink' };

/** All in one drawing, or each in a small one of its own where they are many. */
function drawingOf(
  others: readonly NamedDifference[],
  options: DifferenceOptions,
  units: UnitSystem,
): Figure['drawing'] {
  const axes = {
    x: SPEED_AXIS,
    y: { title: `torque against ${seriesName(options.reference)}, ${SHOWN[units].torqueUnit}`, zero: true },
  };
  const strip = resolvableStrip(
    others[0].byRpm.map((d) => d.rpm),
    options,
    units,
  );
  if (others.length > MOST_TOGETHER) {
    const panels = others.map((one) => ({
      title: seriesName(one.name),
      layers: [
        strip,
        ...ribbonOf(one, 'one standard deviation', 'a', units),
        ZERO,
        lineOf(one, { name: 'with the change', colour: 'a' }, units),
      ],
    }));
    return { kind: 'panels', panels: { ...axes, panels } };
  }
  const place = (i: number): number => options.firstColour + i;
  const layers = [
    strip,
    ...others.flatMap((one, i) =>
      ribbonOf(one, i === 0 ? 'one standard deviation' : null, seriesColour(place(i)), units),
    ),
    ZERO,
    ...others.map((one, i) =>
      lineOf(
        one,
        { name: seriesName(one.name), colour: seriesColour(place(i)), shape: seriesShape(place(i)) },
        units,
      ),
    ),
  ];
  return { kind: 'plot', plot: { ...axes, layers } };
}

/** What a dyno can't tell from nothing. */
function resolvableStrip(
  rpm: readonly number[],
  { referenceTorqueNm, resolvablePct }: DifferenceOptions,
  units: UnitSystem,
): Layer {
  const points = rpm.map((x, i) => {
    const high = SHOWN[units].torque((referenceTorqueNm[i] * resolvablePct) / 100);
    return { x, low: -high, high };
  });
  const name = `less than a dyno shows, ${fixed(resolvablePct, 2)} %`;
  return { kind: 'ribbon', name, colour: 'soft', points };
}

/** One standard deviation to both sides, at the speeds where it was worked out. */
function ribbonOf(
  { byRpm, sigmaNm }: NamedDifference,
  name: string | null,
  colour: Colour,
  units: UnitSystem,
): readonly Layer[] {
  const { torque } = SHOWN[units];
  const points = byRpm.flatMap((d, k) => {
    const sigma = sigmaNm?.[k] ?? null;
    return sigma === null
      ? []
      : [{ x: d.rpm, low: torque(d.torqueNm - sigma), high: torque(d.torqueNm + sigma) }];
  });
  return points.length === 0 ? [] : [{ kind: 'ribbon', name, colour, points }];
}

function lineOf(
  { byRpm }: NamedDifference,
  look: { readonly name: string; readonly colour: Colour; readonly shape?: Shape },
  units: UnitSystem,
): Layer {
  const points = byRpm.map((d) => ({ x: d.rpm, y: SHOWN[units].torque(d.torqueNm) }));
  return { kind: 'line', points, ...look, marked: true, far: FAR_RPM };
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
