/** What stands in the way: over the band, by speed, and what of the air it takes. */
import type { ElementGains, RestrictionState, RestrictionsResult } from '@valvetide/core';
import { bandText } from '../../render/bandText.ts';
import { fixed } from '../../render/fixed.ts';
import { NO_FIGURE } from '../../render/marched.ts';
import { elementName, isShown } from '../../render/restrictionsText.ts';
import { signed } from '../../render/signed.ts';
import type { Layer } from '../draw/plot.ts';
import { type Figure, figureTable } from '../figure.ts';
import { FAR_RPM, farRemark, MOST_TOGETHER, SPEED_AXIS, seriesColour, seriesShape } from './bySpeed.ts';

/** Elements that the gas does not pass through: shown beside the others, never in the way. */
const BESIDE = ['charge-heating', 'pumping', 'friction'];

/** Least span of the gains by speed that is drawn [%]. */
const LEAST_SPAN = 4;

/** Over the band, from intake to exhaust; null where nothing has a mean over it. */
export function restrictionBars({ states: [now], band }: RestrictionsResult): Figure | null {
  const rows = now.elements
    .filter(isShown)
    .flatMap((gains) => (gains.band === null ? [] : [{ gains, band: gains.band }]));
  if (rows.length === 0) return null;
  return {
    id: 'restrictions',
    title: 'Torque gained if one alone were free',
    description: `Mean ${bandText({ band })}. Gains of several don't add up; below zero, the waves of an element are worth more than it costs.`,
    drawing: {
      kind: 'rows',
      rows: {
        title: 'torque, %',
        noise: 0,
        rows: rows.map(({ gains, band: { torquePct } }) => ({
          name: elementName(gains.element, now),
          value: torquePct,
          error: null,
          figure: gains.alreadyFree ? 'is free' : `${signed(torquePct, 1)} %`,
          colour: torquePct < 0 ? 'b' : BESIDE.includes(gains.element) ? 'soft' : 'a',
        })),
      },
    },
    table: figureTable(
      [
        {
          name: 'if free',
          unit: '',
          cell: ({ gains }) => elementName(gains.element, now),
          align: 'left',
        },
        { name: 'torque', unit: '%', cell: ({ band: { torquePct } }) => signed(torquePct, 1) },
      ],
      rows,
    ),
  };
}

/** Speed by speed: those in the gas's way, or those beside it. */
export function restrictionLines(
  { rpm, states: [now] }: RestrictionsResult,
  which: 'in the way' | 'beside',
): Figure | null {
  const drawn = now.elements.flatMap(({ element, alreadyFree, byRpm }: ElementGains) =>
    alreadyFree || byRpm === null || BESIDE.includes(element) !== (which === 'beside')
      ? []
      : [{ name: elementName(element, now), byRpm }],
  );
  if (drawn.length === 0) return null;
  const many = drawn.length > MOST_TOGETHER;
  const line = ({ name, byRpm }: (typeof drawn)[number], i: number): Layer => ({
    kind: 'line',
    name,
    points: byRpm.map((gain) => ({ x: gain.rpm, y: gain.torquePct })),
    colour: many ? 'a' : seriesColour(i),
    ...(many ? {} : { shape: seriesShape(i) }),
    marked: true,
    far: FAR_RPM,
  });
  const zero: Layer = { kind: 'rule', name: null, y: 0, colour: 'soft' };
  const y = { title: 'torque gained if free, %', zero: true, least: LEAST_SPAN };
  return {
    id: which === 'beside' ? 'beside-by-speed' : 'restrictions-by-speed',
    title: which === 'beside' ? 'Heat and friction by speed' : 'Restrictions by speed',
    description: `Torque gained if one alone were free. ${which === 'beside' ? 'These are no part in the way of the gas, but may cost as much as one.' : governingText(now)}${farRemark(rpm)}`,
    drawing: many
      ? {
          kind: 'panels',
          panels: {
            x: SPEED_AXIS,
            y,
            panels: drawn.map((one, i) => ({ title: one.name, layers: [zero, line(one, i)] })),
          },
        }
      : { kind: 'plot', plot: { x: SPEED_AXIS, y, layers: [zero, ...drawn.map(line)] } },
    table: figureTable(
      [
        { name: 'speed', unit: 'rpm', cell: (n: number) => fixed(n) },
        ...drawn.map(({ name, byRpm }) => ({
          name,
          unit: '%',
          cell: (n: number) => {
            const gain = byRpm.find((entry) => entry.rpm === n);
            return gain === undefined ? NO_FIGURE : signed(gain.torquePct, 1);
          },
        })),
      ],
      rpm,
    ),
  };
}

function governingText(now: RestrictionState): string {
  const parts = now.governing.map(
    ({ rpm, element }) =>
      `${fixed(rpm ?? 0)} rpm: ${element === null ? 'nothing much' : elementName(element, now)}`,
  );
  return `First in the way at ${parts.join('; ')}.`;
}

/** Shares of the air that a cylinder could hold. */
export function fillingLosses({ states: [now] }: RestrictionsResult): Figure | null {
  const { points } = now;
  if (points === null) return null;
  const kinds = [
    ['depression', 'depressionPct'],
    ['warmth', 'warmthPct'],
    ['residual gas', 'residualPct'],
  ] as const;
  return {
    id: 'filling-losses',
    title: 'What takes of the air',
    description:
      'Share of the air that a cylinder could hold: taken by depression of the plenum, by a charge warmer than outside, by burned gas that stayed. Below zero it adds.',
    drawing: {
      kind: 'plot',
      plot: {
        x: SPEED_AXIS,
        y: { title: 'of the air a cylinder could hold, %', zero: true },
        layers: kinds.map(
          ([name, key], i): Layer => ({
            kind: 'line',
            name,
            points: points.map((p) => ({ x: p.rpm, y: p.fillingLoss[key] })),
            colour: seriesColour(i),
            shape: seriesShape(i),
            marked: true,
            far: FAR_RPM,
          }),
        ),
      },
    },
    table: figureTable(
      [
        { name: 'speed', unit: 'rpm', cell: (p) => fixed(p.rpm) },
        ...kinds.map(([name, key]) => ({
          name,
          unit: '%',
          cell: (p: (typeof points)[number]) => fixed(p.fillingLoss[key], 1),
        })),
      ],
      points,
    ),
  };
}
