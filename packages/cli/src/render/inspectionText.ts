/** What the sheets come to, for people. */

import type { CamSideFigures, EventFigures, Inspection, RuleOfThumb, SpeedFigures } from '@valvetide/core';
import { counted } from './counted.ts';
import { fixed } from './fixed.ts';
import { assumedReasons, warningsText } from './notes.ts';
import { madeBy, paragraphs } from './paragraphs.ts';
import { plain } from './plain.ts';
import { type Column, table } from './table.ts';
import type { TextOptions } from './textOptions.ts';
import {
  figureIn,
  quantityIn,
  SHOWN,
  SHOWN_DEPRESSION,
  SHOWN_FLOW,
  SHOWN_LENGTH,
  SHOWN_PISTON_SPEED,
  toCubicInch,
  toFeetPerMinute,
  toFeetPerSecond,
  toLitrePerSecond,
  toSquareInch,
  type UnitSystem,
} from './units.ts';
import { wrap } from './wrap.ts';

/** @param version - of this program */
export function inspectionText(
  inspection: Inspection,
  version: string,
  { width, units, paint }: Omit<TextOptions, 'detail'>,
): string {
  return paragraphs([
    `${paint.strong(answer(inspection, units))}\n${plain(inspection.combination)}\n`,
    compressionText(inspection, units, width),
    camText(inspection, units, width),
    flowText(inspection, units, width),
    `By speed (depression at 95 % filling)\n${table(speedColumns(inspection, units), inspection.speeds, width)}`,
    rulesText(inspection.rules, units, width),
    assumedReasons(inspection.assumed, units, width),
    paint.caution(warningsText(inspection.warnings, width)),
    madeBy({ name: 'valvetide', version }),
  ]);
}

function answer({ block, compression }: Inspection, units: UnitSystem): string {
  const { cylinders, boreMm, strokeMm, displacementCm3, rodOverStroke } = block;
  const length = SHOWN_LENGTH[units];
  const size =
    units === 'trade' ? `${fixed(toCubicInch(displacementCm3), 1)} in3` : `${fixed(displacementCm3)} cm3`;
  return `${counted(cylinders, 'cylinder')}, ${size}, ${figureIn(length, boreMm)} x ${quantityIn(length, strokeMm)}, ${fixed(compression.ratio, 2)}:1, rod/stroke ${fixed(rodOverStroke, 2)}`;
}

function compressionText({ compression, chamber }: Inspection, units: UnitSystem, width: number): string {
  const lines = compression.trapped.map(
    ({ height, closesDegAbdc, ratio }) =>
      `  ${fixed(ratio, 2)}:1 from ${fixed(closesDegAbdc, 1)} deg ABDC, intake valve at ${checkedHeight(height, units)}`,
  );
  const clearance = `  ${fixed(compression.ratio, 2)}:1 from bottom centre, ${fixed(compression.clearanceVolumeCm3, 1)} cc above the piston`;
  const all = [clearance, ...lines, `  ${chamberForm(chamber, units)}`];
  return `Compression\n${all.flatMap((line) => wrap(line, width, '    ')).join('\n')}\n`;
}

/** `wedge chamber, plug at the side, squish over 18 % of the bore, 0.053 in high`. */
export function chamberForm(chamber: Inspection['chamber'], units: UnitSystem): string {
  const { shape, plug, squishArea, squishHeightMm } = chamber;
  const height = quantityIn(SHOWN_LENGTH[units], squishHeightMm);
  const squish =
    squishArea === 0 ? 'no squish' : `squish over ${fixed(100 * squishArea)} % of the bore, ${height} high`;
  return `${shape} chamber, plug ${plug === 'central' ? 'in the middle' : 'at the side'}, ${squish}`;
}

/** The heights that cards are checked at, as a reader measures. */
function checkedHeight(height: string, units: UnitSystem): string {
  return units === 'trade' ? height : height.replace('0.006 in', '0.15 mm').replace('0.050 in', '1.27 mm');
}

function camText({ cam }: Inspection, units: UnitSystem, width: number): string {
  const height = (text: string): string => checkedHeight(text, units);
  const shown = SHOWN_LENGTH[units];
  const { unit } = shown;
  const lift = (mm: number): string => figureIn(shown, mm);
  const rows: readonly (readonly [string, string, (side: CamSideFigures) => string])[] = [
    ['lobe lift', unit, (side) => lift(side.lobeLiftMm)],
    ['rocker ratio', '', (side) => fixed(side.rockerRatio, 3)],
    ['lash, hot', unit, (side) => lift(side.lashMm)],
    ['valve lift, net', unit, (side) => lift(side.valveLiftMm)],
    ['lift / valve diameter', '', (side) => fixed(side.liftOverDiameter, 3)],
    ['centreline', 'deg', (side) => fixed(side.centrelineDeg, 1)],
    [height('duration at 0.050 in lobe'), 'deg', (side) => duration(side.at050)],
    [height('duration at 0.006 in valve'), 'deg', (side) => duration(side.atSeat)],
  ];
  const columns: Column<(typeof rows)[number]>[] = [
    { name: 'Cam', unit: '', cell: ([name, of]) => `  ${name}${of === '' ? '' : `, ${of}`}`, align: 'left' },
    { name: 'intake', unit: '', cell: ([, , value]) => value(cam.intake) },
    { name: 'exhaust', unit: '', cell: ([, , value]) => value(cam.exhaust) },
  ];
  const angles = `  separation ${fixed(cam.separationDeg, 1)} cam deg, advance ${fixed(cam.advanceDeg, 1)} deg`;
  const lines = [
    angles,
    eventsLine(height('at 0.050 in lobe'), cam.intake.at050, cam.exhaust.at050, cam.overlap050Deg),
    eventsLine(height('at 0.006 in valve'), cam.intake.atSeat, cam.exhaust.atSeat, cam.overlapSeatDeg),
  ].flatMap((line) => wrap(line, width, '    '));
  return `${table(columns, rows, Number.POSITIVE_INFINITY)}${lines.join('\n')}\n`;
}

function duration(events: EventFigures | null): string {
  return events === null ? '-' : fixed(events.durationDeg, 1);
}

function eventsLine(
  height: string,
  intake: EventFigures | null,
  exhaust: EventFigures | null,
  overlap: number | null,
): string {
  const event = (angle: number, before: string, after: string): string =>
    angle >= 0 ? `${fixed(angle, 1)} ${before}` : `${fixed(-angle, 1)} ${after}`;
  const parts: string[] = [];
  if (intake !== null) {
    parts.push(
      `intake ${event(intake.opensDeg, 'BTDC', 'ATDC')} to ${event(intake.closesDeg, 'ABDC', 'BBDC')}`,
    );
  }
  if (exhaust !== null) {
    parts.push(
      `exhaust ${event(exhaust.opensDeg, 'BBDC', 'ABDC')} to ${event(exhaust.closesDeg, 'ATDC', 'BTDC')}`,
    );
  }
  if (overlap !== null) parts.push(`overlap ${fixed(overlap, 1)} deg`);
  return parts.length === 0
    ? `  ${height}: the lobe never rises that far`
    : `  ${height}: ${parts.join(', ')}`;
}

function flowText({ cam, flow }: Inspection, units: UnitSystem, width: number): string {
  const area = (mm2: number): string =>
    units === 'trade' ? `${fixed(toSquareInch(mm2), 3)} in2` : `${fixed(mm2)} mm2`;
  const shown = SHOWN_FLOW[units];
  const flowOf = (cfm: number): string => quantityIn(shown, cfm);
  const side = (name: string, cfm: number, { peakAreaMm2, meanAreaMm2 }: CamSideFigures, port: number) =>
    `  ${name}: ${flowOf(cfm)} at ${shown.bench} and full lift; effective area ${area(peakAreaMm2)} there, ${area(meanAreaMm2)} mean while open; port ${area(port)}`;
  const lines = [
    side('intake', flow.intakeCfm28, cam.intake, flow.intakePortMm2),
    side('exhaust', flow.exhaustCfm28, cam.exhaust, flow.exhaustPortMm2),
    `  exhaust over intake ${fixed(100 * flow.exhaustOverIntake)} %; ${meteringText(flow, flowOf(flow.inductionCfm15))} at ${shown.rating}`,
  ];
  return `Flow, one cylinder\n${lines.flatMap((line) => wrap(line, width, '    ')).join('\n')}\n`;
}

function speedColumns(inspection: Inspection, units: UnitSystem): Column<SpeedFigures>[] {
  const trade = units === 'trade';
  const speed = (ms: number): string => (trade ? fixed(toFeetPerSecond(ms)) : fixed(ms, 1));
  const gasUnit = trade ? 'ft/s' : 'm/s';
  const piston = SHOWN_PISTON_SPEED[units];
  const depression = SHOWN_DEPRESSION[units];
  return [
    { name: 'speed', unit: 'rpm', cell: (row) => fixed(row.rpm) },
    { name: 'piston', unit: piston.unit, cell: (row) => figureIn(piston, row.meanPistonSpeedMs) },
    { name: 'inlet Mach', unit: '-', cell: (row) => fixed(row.inletMachIndex, 2) },
    { name: 'intake port', unit: gasUnit, cell: (row) => speed(row.portVelocityMs) },
    { name: 'primary', unit: gasUnit, cell: (row) => speed(row.primaryVelocityMs) },
    {
      name: inspection.flow.inductionKind,
      unit: depression.unit,
      cell: (row) => figureIn(depression, row.depressionInHg),
    },
  ];
}

/** A rule's figures in SI; its words stay as the trade has them. */
function ruleIn(rule: RuleOfThumb, units: UnitSystem): RuleOfThumb {
  const known: Readonly<Record<string, readonly [unit: string, convert: (value: number) => number]>> = {
    cfm: ['l/s', toLitrePerSecond],
    hp: ['kW', (hp) => hp / SHOWN.trade.power(1)],
    'ft/min': ['m/s', (speed) => speed / toFeetPerMinute(1)],
  };
  const found = units === 'trade' || !Object.hasOwn(known, rule.unit) ? undefined : known[rule.unit];
  if (found === undefined) return rule;
  const [unit, convert] = found;
  const { low, high, here } = rule;
  return {
    ...rule,
    unit,
    low: low === null ? null : low === high ? convert(high) : convert(low),
    high: convert(high),
    here: here === null ? null : convert(here),
  };
}

function rulesText(shown: readonly RuleOfThumb[], units: UnitSystem, width: number): string {
  const rules = shown.map((rule) => ruleIn(rule, units));
  const figure = (value: number, unit: string): string =>
    fixed(value, unit === '' ? 2 : Math.abs(value) < 20 ? 1 : 0);
  const expected = ({ low, high, unit }: RuleOfThumb): string => {
    const from = low === null ? 'up to ' : low === high ? '' : `${figure(low, unit)} to `;
    const range = `${from}${figure(high, unit)}`;
    return unit === '' ? range : `${range} ${unit}`;
  };
  const columns: Column<RuleOfThumb>[] = [
    { name: 'Rule of thumb says', unit: '', cell: (rule) => `  ${plain(rule.subject)}`, align: 'left' },
    { name: 'expected', unit: '', cell: expected },
    { name: 'here', unit: '', cell: (rule) => (rule.here === null ? '' : figure(rule.here, rule.unit)) },
    { name: 'rule', unit: '', cell: (rule) => rule.says, align: 'left' },
  ];
  // The words of the rules go where there is room for them, never into a block of their own.
  return table(columns, rules, width, 1);
}

/** `carburetor 680 cfm`; of several what they pass all together, since a file rates each. */
function meteringText(
  { inductionKind: kind, inductionCount: count }: Inspection['flow'],
  flow: string,
): string {
  return count === 1 ? `${kind} ${flow}` : `${counted(count, kind)} together ${flow}`;
}
