/** Form of a chamber where a file is silent: shape by the number of valves, squish and plug by the shape. */
import { INCH } from '../../base/constants.ts';
import type { Estimate, WordEstimate } from '../../combination/ledger.ts';
import type { ChamberShape } from '../../geometry/squish.ts';
import type { PlugPlace } from '../../processes/chamberBurn.ts';

/** Shape of chamber by number of valves. */
export function chamberShape(valves: number): WordEstimate<ChamberShape> {
  return valves > 2
    ? { value: 'pent-roof', reason: 'usual with more than two valves' }
    : { value: 'wedge', reason: 'usual with two valves' };
}

/** Place of the plug by shape. */
export function plugPlace(shape: ChamberShape): WordEstimate<PlugPlace> {
  return shape === 'pent-roof'
    ? { value: 'central', reason: 'between the valves of a pent roof' }
    : { value: 'side', reason: `the valves of a ${shape} chamber leave no room in the middle` };
}

/** Squish area over bore area [-]; from memory. Within one shape from a third of it to half as much again. */
export const SQUISH_AREA: Readonly<Record<ChamberShape, number>> = {
  wedge: 0.18,
  bathtub: 0.25,
  'bowl-in-piston': 0.5,
  hemispherical: 0,
  'pent-roof': 0.12,
};

/** One standard deviation of the squish area [-]: most of what heads of one shape differ by; from memory. */
export const SQUISH_AREA_SPREAD = 0.06;

export function squishArea(shape: ChamberShape): Estimate {
  return {
    value: SQUISH_AREA[shape],
    spread: SQUISH_AREA[shape] === 0 ? null : SQUISH_AREA_SPREAD,
    reason: `${100 * SQUISH_AREA[shape]} % of the bore is middling for a ${shape} chamber; from memory`,
  };
}

/** Smallest gap an estimate gives [m]: less than any engine runs. */
const LEAST_HEIGHT = 0.5e-3;

/** Gap at top centre [m] from deck and gasket. */
export function squishHeight(deckHeight: number, gasketThickness: number): Estimate {
  return {
    value: Math.max(LEAST_HEIGHT, deckHeight + gasketThickness),
    spread: 0.01 * INCH,
    reason: 'deck and compressed gasket, head and piston flat there',
  };
}
