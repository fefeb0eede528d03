/** Dyno sheets drawn: what each measured, how well it repeats, and what the further ones gained on the first. */
import type { DynoSheet, MeanPoint, PullSummary } from '@valvetide/core';
import { fixed } from '../../render/fixed.ts';
import { meanColumns, type PullsResult } from '../../render/pullsText.ts';
import type { Column } from '../../render/table.ts';
import { SHOWN, type UnitSystem } from '../../render/units.ts';
import type { Layer } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';
import { SPEED_AXIS, seriesColour, seriesName, seriesShape } from './bySpeed.ts';
import { differenceBySpeed } from './differenceBySpeed.ts';

const SHAPES = ['circle', 'diamond', 'square', 'triangle-up'] as const;

/** Mean curves as lines, every pull as marks. */
export function pullCurves(
  sheets: readonly DynoSheet[],
  summaries: readonly PullSummary[],
  what: 'torque' | 'power',
  units: UnitSystem,
): Figure {
  const { torque, torqueUnit, power, powerUnit } = SHOWN[units];
  const unit = what === 'torque' ? torqueUnit : powerUnit;
  const value = (p: { readonly torqueNm: number; readonly powerKw: number }): number =>
    what === 'torque' ? torque(p.torqueNm) : power(p.powerKw);
  const layers = summaries.flatMap((summary, i): Layer[] => [
    {
      kind: 'line',
      name: seriesName(summary.sheet),
      points: summary.points.map((p) => ({ x: p.rpm, y: value(p) })),
      colour: seriesColour(i),
      shape: seriesShape(i),
    },
    ...(summary.pulls.length < 2
      ? []
      : [
          {
            kind: 'dots' as const,
            name: `its ${summary.pulls.length} pulls`,
            points: sheets[i].pulls.flatMap(({ points }) => points.map((p) => ({ x: p.rpm, y: value(p) }))),
            colour: seriesColour(i),
            shape: SHAPES[i % SHAPES.length],
          },
        ]),
  ]);
  const peaks = summaries.map(({ sheet, mean }) =>
    what === 'torque'
      ? `${seriesName(sheet)} ${fixed(torque(mean.peakTorque.torqueNm), 1)} ${unit} at ${fixed(mean.peakTorque.rpm)} rpm`
      : `${seriesName(sheet)} ${fixed(power(mean.peakPower.powerKw), 1)} ${unit} at ${fixed(mean.peakPower.rpm)} rpm`,
  );
  return {
    id: what,
    title: what === 'torque' ? 'Torque measured' : 'Power measured',
    description: `Mean of each sheet's pulls as a line, its pulls as open marks. Peaks of the means: ${peaks.join('; ')}.`,
    drawing: { kind: 'plot', plot: { x: SPEED_AXIS, y: { title: `${what}, ${unit}` }, layers } },
    table:
      summaries.length === 1
        ? figureTable(meanColumns(units), summaries[0].points)
        : figureTable(meansSideBySide(summaries, unit, value, 1), speedsOf(summaries)),
  };
}

/** Standard deviation from pull to pull, speed by speed; null where no sheet repeats a pull. */
export function pullScatter(summaries: readonly PullSummary[]): Figure | null {
  const repeated = summaries.filter(({ repeatability }) => repeatability !== null);
  if (repeated.length === 0) return null;
  const told = repeated.map(
    ({ sheet, repeatability }) => `${seriesName(sheet)} ${fixed(100 * (repeatability?.deviation ?? 0), 2)} %`,
  );
  const layers = summaries.flatMap(({ sheet, points, repeatability }, i): Layer[] =>
    repeatability === null
      ? []
      : [
          {
            kind: 'line',
            name: seriesName(sheet),
            points: points.flatMap(({ rpm, deviation }) =>
              deviation === null ? [] : [{ x: rpm, y: 100 * deviation }],
            ),
            colour: seriesColour(i),
            shape: seriesShape(i),
            marked: true,
          },
        ],
  );
  return {
    id: 'scatter',
    title: 'How well the pulls repeat',
    description: `One standard deviation of torque from pull to pull. Over all speeds: ${told.join('; ')}. With so few pulls it jumps from speed to speed: read the level, not the shape.`,
    drawing: {
      kind: 'plot',
      plot: { x: SPEED_AXIS, y: { title: 'scatter of torque, %', zero: true }, layers },
    },
    table: figureTable(
      meansSideBySide(repeated, '%', ({ deviation }) => (deviation === null ? null : 100 * deviation), 2),
      speedsOf(repeated),
    ),
  };
}

/** Measured against measured, those sheets together that share the speeds of the first of them; null with one sheet. */
export function pullDifference({ comparisons }: PullsResult, units: UnitSystem): Figure | null {
  if (comparisons.length === 0) return null;
  const [first] = comparisons;
  const alike = comparisons.filter(
    ({ points }) =>
      points.length === first.points.length && points.every(({ rpm }, i) => rpm === first.points[i].rpm),
  );
  return differenceBySpeed(
    alike.map(({ after, points }) => ({
      name: after,
      byRpm: points.map(({ rpm, beforeNm, afterNm, gain }) => ({
        rpm,
        torqueNm: afterNm - beforeNm,
        torquePct: 100 * gain,
      })),
      sigmaNm: null,
    })),
    {
      reference: first.before,
      referenceTorqueNm: first.points.map(({ beforeNm }) => beforeNm),
      resolvablePct: 100 * Math.max(...alike.map(({ resolvable }) => resolvable)),
      firstColour: 1,
    },
    units,
  );
}

function speedsOf(summaries: readonly PullSummary[]): readonly number[] {
  return [...new Set(summaries.flatMap(({ points }) => points.map(({ rpm }) => rpm)))].sort((a, b) => a - b);
}

function meansSideBySide(
  summaries: readonly PullSummary[],
  unit: string,
  value: (point: MeanPoint) => number | null,
  decimals: number,
): Column<number>[] {
  return [
    { name: 'speed', unit: 'rpm', cell: (rpm) => fixed(rpm) },
    ...summaries.map(({ sheet, points }) => ({
      name: seriesName(sheet),
      unit,
      cell: (rpm: number) => {
        const point = points.find((p) => p.rpm === rpm);
        const shown = point === undefined ? null : value(point);
        return shown === null ? '' : fixed(shown, decimals);
      },
    })),
  ];
}
