/** What a cam card states of a lobe, measured on the lobe that was made of it. */
import { type LobeShape, lobeAngleAt } from '../../src/geometry/lobe.ts';
import type { ValveEvents, ValveLift } from '../../src/geometry/valveLift.ts';

/** Duration above a lobe lift [crank deg]; zero when the lobe never rises that far. */
export function lobeDuration(shape: LobeShape, lift: number): number {
  const opens = lobeAngleAt(shape, lift, 'opening');
  const closes = lobeAngleAt(shape, lift, 'closing');
  return opens === null || closes === null ? 0 : closes - opens;
}

/** Events at a lobe lift (lifter rise) [m], as a cam card states them; null when the lobe never rises that far. */
export function lobeEvents(lobe: LobeShape, centre: number, lift: number): ValveEvents | null {
  const opening = lobeAngleAt(lobe, lift, 'opening');
  const closing = lobeAngleAt(lobe, lift, 'closing');
  if (opening === null || closing === null) return null;
  return { opens: centre + opening, closes: centre + closing, duration: closing - opening };
}

/** Area under the lift curve of one cycle [m deg]. */
export function liftArea(valve: ValveLift): number {
  return valve.table.values.reduce((sum, lift) => sum + lift, 0) * valve.table.step;
}
