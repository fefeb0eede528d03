/** Torque and power over speed, with the speeds that count and what a dyno has measured. */
import type { Curve, OperatingPoint } from '@valvetide/core';
import { fixed } from '../../render/fixed.ts';
import { figureCell, marched } from '../../render/marched.ts';
import type { Column } from '../../render/table.ts';
import { SHOWN, type UnitSystem } from '../../render/units.ts';
import type { Layer } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';
import { FAR_RPM, farRemark, overSpeed, SPEED_AXIS } from './bySpeed.ts';

export interface MeasuredPoint {
  readonly rpm: number;
  readonly torqueNm: number;
}

export interface TorqueAndPowerExtras {
  /** Speeds the builder cares about, shaded. */
  readonly band?: { readonly fromRpm: number; readonly toRpm: number };
  /** One standard deviation of torque, speed by speed as in the curve [Nm]; null where it was not worked out. */
  readonly spreadNm?: readonly (number | null)[];
  /** Of a dyno sheet at the curve's correction standard. */
  readonly measured?: readonly MeasuredPoint[];
}

/** Null where the curve has no figures. */
export function torqueAndPower(
  curve: Curve,
  units: UnitSystem,
  extras: TorqueAndPowerExtras = {},
): Figure | null {
  const { points, peak } = curve;
  if (peak === null) return null;
  const { torqueUnit, powerUnit } = SHOWN[units];
  const { band } = extras;
  const layers: Layer[] = [
    ...(band === undefined
      ? []
      : [{ kind: 'span' as const, name: 'band', from: band.fromRpm, to: band.toRpm }]),
    ...ribbons(curve, units, extras),
    ...lines(curve, units),
    // Words would lie on the marks of what was measured; the sentence below says the peaks too.
    ...(extras.measured === undefined || extras.measured.length === 0
      ? peakNotes(curve, peak, units)
      : measuredDots(extras.measured, units)),
  ];
  return {
    id: 'torque-and-power',
    title: 'Torque and power',
    description: describe(curve, peak, units, extras),
    drawing: {
      kind: 'plot',
      plot: { x: SPEED_AXIS, y: { title: `${torqueUnit} and ${powerUnit}` }, layers },
    },
    table: figureTable(columns(curve, units, extras), points),
  };
}

type Peak = NonNullable<Curve['peak']>;

/** Power of a torque [Nm] at a speed [1/min], as shown. */
function shownPower(units: UnitSystem, newtonMetre: number, rpm: number): number {
  return SHOWN[units].power((newtonMetre * rpm * Math.PI) / 30_000);
}

/** Highest torque and power, as shown. */
function peaksOf(peak: Peak, units: UnitSystem): readonly [torque: number, power: number] {
  return units === 'trade'
    ? [peak.torque.torqueLbFt, peak.power.powerHp]
    : [peak.torque.torqueNm, peak.power.powerKw];
}

/** One standard deviation to either side of both curves. */
function ribbons({ points }: Curve, units: UnitSystem, { spreadNm }: TorqueAndPowerExtras): Layer[] {
  if (spreadNm === undefined || spreadNm.every((spread) => spread === null)) return [];
  const ribbon = (
    name: string | null,
    colour: 'a' | 'b',
    of: (nm: number, rpm: number) => number,
  ): Layer => ({
    kind: 'ribbon',
    name,
    colour,
    points: marched(points).flatMap(({ rpm, torqueNm }) => {
      const spread = spreadNm[points.findIndex((p) => p.rpm === rpm)] ?? null;
      return spread === null
        ? []
        : [{ x: rpm, low: of(torqueNm - spread, rpm), high: of(torqueNm + spread, rpm) }];
    }),
  });
  return [
    ribbon('one standard deviation', 'a', SHOWN[units].torque),
    ribbon(null, 'b', (nm, rpm) => shownPower(units, nm, rpm)),
  ];
}

function lines({ points }: Curve, units: UnitSystem): Layer[] {
  const trade = units === 'trade';
  const { torqueUnit, powerUnit } = SHOWN[units];
  return [
    {
      kind: 'line',
      name: `torque, ${torqueUnit}`,
      points: overSpeed(points, (p) => (trade ? p.torqueLbFt : p.torqueNm)),
      colour: 'a',
      shape: 'circle',
      marked: true,
      far: FAR_RPM,
    },
    {
      kind: 'line',
      name: `power, ${powerUnit}`,
      points: overSpeed(points, (p) => (trade ? p.powerHp : p.powerKw)),
      colour: 'b',
      shape: 'square',
      marked: true,
      far: FAR_RPM,
    },
  ];
}

function measuredDots(measured: readonly MeasuredPoint[], units: UnitSystem): Layer[] {
  return [
    {
      kind: 'dots',
      name: 'torque measured',
      points: measured.map(({ rpm, torqueNm }) => ({ x: rpm, y: SHOWN[units].torque(torqueNm) })),
      colour: 'a',
      shape: 'circle',
    },
    {
      kind: 'dots',
      name: 'power measured',
      points: measured.map(({ rpm, torqueNm }) => ({ x: rpm, y: shownPower(units, torqueNm, rpm) })),
      colour: 'b',
      shape: 'diamond',
    },
  ];
}

function peakNotes({ points }: Curve, peak: Peak, units: UnitSystem): Layer[] {
  const { torque: torqueOf, torqueUnit, powerUnit } = SHOWN[units];
  const [torque, power] = peaksOf(peak, units);
  const torqueNmAt = (rpm: number): number => marched(points).find((p) => p.rpm === rpm)?.torqueNm ?? 0;
  const powerThere = shownPower(units, torqueNmAt(peak.torque.rpm), peak.torque.rpm);
  return [
    note(peak.torque, torque, powerThere, torqueUnit, 'a'),
    note(peak.power, power, torqueOf(torqueNmAt(peak.power.rpm)), powerUnit, 'b'),
  ];
}

function describe(
  { points }: Curve,
  peak: Peak,
  units: UnitSystem,
  { band, spreadNm, measured = [] }: TorqueAndPowerExtras,
): string {
  const { torqueUnit, powerUnit } = SHOWN[units];
  const [torque, power] = peaksOf(peak, units);
  const sentences = [
    `Highest: ${fixed(torque)} ${torqueUnit} at ${fixed(peak.torque.rpm)} rpm, ${fixed(power)} ${powerUnit} at ${fixed(peak.power.rpm)} rpm.`,
    ...(measured.length === 0 ? [] : ['Open marks are measured.']),
    ...(spreadNm === undefined
      ? []
      : [
          'The ribbons are one standard deviation of what is not known, with the part that all changes share and that cancels in their gains.',
        ]),
    ...(band === undefined ? [] : [`Shaded: the band, ${fixed(band.fromRpm)} to ${fixed(band.toRpm)} rpm.`]),
  ];
  return `${sentences.join(' ')}${farRemark(points.map(({ rpm }) => rpm))}`;
}

/** On the side of the point where the other curve is not. */
function note(
  { rpm }: { readonly rpm: number },
  value: number,
  other: number,
  unit: string,
  colour: 'a' | 'b',
): Layer {
  return {
    kind: 'note',
    x: rpm,
    y: value,
    text: `${fixed(value)} ${unit}`,
    colour,
    side: other > value ? 'below' : 'above',
  };
}

function columns(
  curve: Curve,
  units: UnitSystem,
  { spreadNm }: TorqueAndPowerExtras,
): Column<OperatingPoint>[] {
  const trade = units === 'trade';
  const spread = ({ rpm }: OperatingPoint): number | null =>
    spreadNm?.[curve.points.findIndex((p) => p.rpm === rpm)] ?? null;
  const all: Column<OperatingPoint>[] = [
    { name: 'speed', unit: 'rpm', cell: (p) => fixed(p.rpm) },
    {
      name: 'torque',
      unit: trade ? 'lb-ft' : 'Nm',
      cell: figureCell((p) => fixed(trade ? p.torqueLbFt : p.torqueNm, 1)),
    },
    {
      name: 'power',
      unit: trade ? 'hp' : 'kW',
      cell: figureCell((p) => fixed(trade ? p.powerHp : p.powerKw, 1)),
    },
    ...(spreadNm === undefined
      ? []
      : [
          {
            name: '+/- torque',
            unit: trade ? 'lb-ft' : 'Nm',
            cell: (p: OperatingPoint) => {
              const nm = spread(p);
              return nm === null ? '' : fixed(SHOWN[units].torque(nm), 1);
            },
          },
        ]),
    { name: 'cycle', unit: '', cell: ({ status }) => status },
  ];
  return curve.points.every(({ status }) => status === 'settled') ? all.slice(0, -1) : all;
}
