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
  const trade = units === 'trade';
  const { torque: torqueOf, torqueUnit, power: shownPower, powerUnit } = SHOWN[units];
  const powerOf = (newtonMetre: number, rpm: number): number =>
    shownPower((newtonMetre * rpm * Math.PI) / 30_000);
  const { points, peak } = curve;
  if (peak === null) return null;
  const spreadAt = (rpm: number): number | null =>
    extras.spreadNm?.[points.findIndex((p) => p.rpm === rpm)] ?? null;
  const { band, spreadNm, measured = [] } = extras;
  const ribbon = (
    name: string | null,
    colour: 'a' | 'b',
    of: (nm: number, rpm: number) => number,
  ): Layer[] =>
    spreadNm === undefined || spreadNm.every((spread) => spread === null)
      ? []
      : [
          {
            kind: 'ribbon',
            name,
            colour,
            points: marched(points).flatMap((p) => {
              const spread = spreadAt(p.rpm);
              return spread === null
                ? []
                : [
                    {
                      x: p.rpm,
                      low: of(p.torqueNm - spread, p.rpm),
                      high: of(p.torqueNm + spread, p.rpm),
                    },
                  ];
            }),
          },
        ];
  const [torque, power] = trade
    ? [peak.torque.torqueLbFt, peak.power.powerHp]
    : [peak.torque.torqueNm, peak.power.powerKw];
  const torqueNmAt = (rpm: number): number => marched(points).find((p) => p.rpm === rpm)?.torqueNm ?? 0;
  const torqueAt = (rpm: number): number => torqueOf(torqueNmAt(rpm));
  const powerAt = (rpm: number): number => powerOf(torqueNmAt(rpm), rpm);
  const layers: Layer[] = [
    ...(band === undefined
      ? []
      : [{ kind: 'span' as const, name: 'band', from: band.fromRpm, to: band.toRpm }]),
    ...ribbon('one standard deviation', 'a', torqueOf),
    ...ribbon(null, 'b', powerOf),
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
    ...(measured.length === 0
      ? []
      : [
          {
            kind: 'dots' as const,
            name: 'torque measured',
            points: measured.map(({ rpm, torqueNm }) => ({ x: rpm, y: torqueOf(torqueNm) })),
            colour: 'a' as const,
            shape: 'circle' as const,
          },
          {
            kind: 'dots' as const,
            name: 'power measured',
            points: measured.map(({ rpm, torqueNm }) => ({ x: rpm, y: powerOf(torqueNm, rpm) })),
            colour: 'b' as const,
            shape: 'diamond' as const,
          },
        ]),
    // Words would lie on the marks of what was measured; the sentence below says the peaks too.
    ...(measured.length > 0
      ? []
      : [
          note(peak.torque, torque, powerAt(peak.torque.rpm), torqueUnit, 'a'),
          note(peak.power, power, torqueAt(peak.power.rpm), powerUnit, 'b'),
        ]),
  ];
  return {
    id: 'torque-and-power',
    title: 'Torque and power',
    description: `Torque peaks at ${fixed(torque)} ${torqueUnit} at ${fixed(peak.torque.rpm)} rpm, power at ${fixed(power)} ${powerUnit} at ${fixed(peak.power.rpm)} rpm.${measured.length === 0 ? '' : ' Open marks are measured.'}${spreadNm === undefined ? '' : ' The ribbons are one standard deviation of what is not known, with the part that all changes share and that cancels in their gains.'}${band === undefined ? '' : ` Shaded: the band, ${fixed(band.fromRpm)} to ${fixed(band.toRpm)} rpm.`}${farRemark(points.map(({ rpm }) => rpm))}`,
    drawing: {
      kind: 'plot',
      plot: { x: SPEED_AXIS, y: { title: `${torqueUnit} and ${powerUnit}` }, layers },
    },
    table: figureTable(columns(curve, units, extras), points),
  };
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
