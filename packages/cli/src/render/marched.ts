/** The speeds of a curve that have figures, and what stands in a table where there are none. */
import type { LeftOut, MarchedPoint, OperatingPoint } from '@valvetide/core';
import { fixed } from './fixed.ts';
import { plain } from './plain.ts';

/** Stands in a cell for a figure that there is not. */
export const NO_FIGURE = '-';

/** The points that were not lost. */
export function marched(points: readonly OperatingPoint[]): readonly MarchedPoint[] {
  return points.filter((point) => point.status !== 'lost');
}

/** The speed, with a mark behind it where its cycle did not settle or there are no figures. */
export function markedSpeed({ rpm, status }: Pick<OperatingPoint, 'rpm' | 'status'>): string {
  return `${fixed(rpm)}${status === 'settled' ? '' : status === 'lost' ? ' x' : ' ?'}`;
}

/** The worst that became of a speed in several curves. */
export function worstOf(statuses: readonly OperatingPoint['status'][]): OperatingPoint['status'] {
  return (['lost', 'unsettled'] as const).find((status) => statuses.includes(status)) ?? 'settled';
}

/** What the marks behind speeds mean, a line each; empty where there are none. */
export function marksText(points: readonly Pick<OperatingPoint, 'status'>[]): string {
  const unsettled = points.some(({ status }) => status === 'unsettled');
  const lost = points.some(({ status }) => status === 'lost');
  return `${unsettled ? '? behind a speed: the cycle had not settled there\n' : ''}${lost ? 'x behind a speed: there are no figures there\n' : ''}`;
}

/** A cell that needs the figures of a point. */
export function figureCell(cell: (point: MarchedPoint) => string): (point: OperatingPoint) => string {
  return (point) => (point.status === 'lost' ? NO_FIGURE : cell(point));
}

/** What a study could not count, a line for each curve. */
export function leftOutLines(leftOut: readonly LeftOut[]): readonly string[] {
  const curves = [...new Set(leftOut.map(({ curve }) => curve))];
  return curves.map((name) => {
    const lost = leftOut.filter(({ curve }) => curve === name);
    return plain(
      `left out: ${name} at ${lost.map(({ rpm }) => fixed(rpm)).join(', ')} rpm: ${lost[0].reason}`,
    );
  });
}
