/** Whether the fuel is enough for the curve, in a sentence. */
import type { Curve, MarchedPoint } from '@valvetide/core';
import { fixed } from './fixed.ts';
import { marched } from './marched.ts';
import { plain } from './plain.ts';

/** What the pump says of a fuel. */
export interface PumpFuel {
  readonly name: string;
  /** (R + M) / 2. */
  readonly octane: number;
  /** Whether knock alone sets the spark later than best; a spark or an angle that the file states may be late for reasons of its own. */
  readonly knockSetsSpark: boolean;
}

/** Less than this of a degree is not told [deg]. */
const TOLD = 0.05;
/** Field of the file that the octane asked for is as unsure as. */
const UNSURE = 'burn.octaneOffset';

/**
 * `Fuel: pump-93 has 93.0 octane, (R + M) / 2; best timing asks for 81.8 at most, at 4000 rpm: 11.2 to spare, give or take 3.` Empty
 * where no speed has figures.
 */
export function fuelLine({ points, assumed }: Curve, { name, octane, knockSetsSpark }: PumpFuel): string {
  const settled = marched(points);
  if (settled.length === 0) return '';
  const has = `Fuel: ${plain(name)} has ${fixed(octane, 1)} octane, (R + M) / 2`;
  const spread = assumed.find(({ path }) => path === UNSURE)?.spread ?? null;
  const unsure = spread === null ? '' : `, give or take ${fixed(spread)}`;
  const knocking = settled.filter(({ detonates }) => detonates);
  if (knocking.length > 0) {
    const { rpm, octaneRequired } = most(knocking, (p) => p.octaneRequired);
    const where = knocking.map((p) => fixed(p.rpm)).join(', ');
    return `${has}; it detonates at ${where} rpm and would take ${fixed(octaneRequired, 1)} at ${fixed(rpm)} rpm${unsure}.`;
  }
  const retarded = most(settled, (p) => p.sparkGivenBackDeg);
  const isLate = retarded.sparkGivenBackDeg >= TOLD;
  const loss = most(settled, (p) => p.torqueGivenBackPct).torqueGivenBackPct;
  if (isLate && knockSetsSpark) {
    const { rpm, octaneAtBestTiming } = most(settled, (p) => p.octaneAtBestTiming);
    return `${has}; best timing asks for ${fixed(octaneAtBestTiming, 1)} at ${fixed(rpm)} rpm${unsure}: up to ${fixed(retarded.sparkGivenBackDeg, 1)} deg of spark and ${fixed(loss, 1)} % of torque are given back.`;
  }
  const { rpm, octaneRequired } = most(settled, (p) => p.octaneRequired);
  return `${has}; the engine asks for ${fixed(octaneRequired, 1)} at most, at ${fixed(rpm)} rpm: ${fixed(octane - octaneRequired, 1)} to spare${unsure}.${isLate ? ` The spark stated is up to ${fixed(retarded.sparkGivenBackDeg, 1)} deg later than best, which costs ${fixed(loss, 1)} % of torque at most.` : ''}`;
}

function most(points: readonly MarchedPoint[], of: (point: MarchedPoint) => number): MarchedPoint {
  return points.reduce((best, point) => (of(point) > of(best) ? point : best));
}
