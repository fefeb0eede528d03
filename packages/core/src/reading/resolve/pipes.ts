/** Round tubes: inside diameter from what is stated of one. */

import type { Estimate } from '../../combination/ledger.ts';
import { tubeWall } from '../defaults/header.ts';
import type { PipeSection } from '../schema/exhaustSection.ts';
import type { PipePath } from '../schema/fieldPath.ts';
import type { ResolveContext } from './context.ts';

/** Inside diameter [m] of a tube: as stated, outside less two walls, or the estimate. */
export function insideDiameter(
  { ledger }: ResolveContext,
  path: PipePath,
  stated: PipeSection | undefined,
  estimate: () => Estimate,
): number {
  if (stated?.inside === undefined && stated?.diameter !== undefined) {
    const wall = ledger.quantity(`${path}.wall`, stated.wall, 'length', 'in', tubeWall);
    return stated.diameter - 2 * wall;
  }
  return ledger.quantity(`${path}.inside`, stated?.inside, 'length', 'in', estimate);
}

/** Wall of a tube at full load [K]: as stated, or the estimate. */
export function wallOf(
  { ledger }: ResolveContext,
  path: PipePath,
  stated: PipeSection | undefined,
  estimate: () => Estimate,
): number {
  return ledger.quantity(`${path}.wallTemperature`, stated?.wallTemperature, 'temperature', 'K', estimate);
}

/** Area of a circle [m2] of a diameter [m]. */
export function discArea(diameter: number): number {
  return (Math.PI / 4) * diameter * diameter;
}
