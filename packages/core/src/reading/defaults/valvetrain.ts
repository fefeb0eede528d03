/** Rockers, lash and bending where the file is silent. */
import { INCH } from '../../base/constants.ts';
import type { Estimate, WordEstimate } from '../../combination/ledger.ts';
import type { Friction } from '../../combination/running.ts';
import type { Lifter, ValvetrainType } from '../schema/camSection.ts';

/** Rocker ratio of a pushrod engine [-]; common practice, no source. */
export const PUSHROD_RATIO = 1.5;
/** Ratio over a rocker or finger of an overhead cam [-]; from memory. */
export const OVERHEAD_ROCKER_RATIO = 1.6;
/** Hot clearance of solid lifters at the valve [m]; common practice, no source. */
export const SOLID_LASH: number = 0.018 * INCH;
/** Clearance of a bucket or finger [m]; from memory. */
export const OVERHEAD_LASH: number = 0.01 * INCH;
/** Bending of a pushrod valvetrain at full lift [m]; common practice, no source. */
export const PUSHROD_FLEX: number = 0.01 * INCH;
/** True over stamped ratio of production rockers [-]: a stamped 1.5 measures about 1.46 (common practice, no source). */
export const PRODUCTION_RATIO_FACTOR = 0.98;

export function valvetrainType(valves: number): WordEstimate<ValvetrainType> {
  return valves > 2
    ? { value: 'direct-acting', reason: 'usual with more than two valves' }
    : { value: 'pushrod', reason: 'usual with two valves' };
}

export function rockerRatio(type: ValvetrainType): Estimate {
  if (type === 'direct-acting') return { value: 1, spread: 0, reason: 'the lobe lifts the valve itself' };
  if (type === 'pushrod')
    return { value: PUSHROD_RATIO, spread: 0.05, reason: 'usual; common practice, no source' };
  return { value: OVERHEAD_ROCKER_RATIO, spread: 0.1, reason: 'usual for overhead rockers; from memory' };
}

export function lash(type: ValvetrainType, kind: Lifter): Estimate {
  if (kind.startsWith('hydraulic'))
    return { value: 0, spread: 0, reason: 'hydraulic lifters take up the clearance' };
  if (type !== 'pushrod') {
    return { value: OVERHEAD_LASH, spread: 0.002 * INCH, reason: 'usual for overhead cams; from memory' };
  }
  return {
    value: SOLID_LASH,
    spread: 0.004 * INCH,
    reason: 'usual hot lash of solid lifters; common practice, no source',
  };
}

export function flex(type: ValvetrainType): Estimate {
  return type === 'pushrod'
    ? {
        value: PUSHROD_FLEX,
        spread: 0.007 * INCH,
        reason: 'bending of pushrods and rockers; common practice, no source',
      }
    : { value: 0, spread: 0.002 * INCH, reason: 'overhead cams bend little; common practice, no source' };
}

/** Camshafts of the whole engine: one in the block, or overhead one to a bank with two valves and two with more. */
export function camshafts(type: ValvetrainType, valves: number, banks: number): Estimate {
  if (type === 'pushrod') return { value: 1, spread: null, reason: 'usual with pushrods' };
  return valves > 2
    ? { value: 2 * banks, spread: null, reason: 'two to a bank, usual with more than two valves' }
    : { value: banks, spread: null, reason: 'one to a bank, usual with two valves' };
}

/**
 * Bearings of one camshaft [-]: overhead one more than the cylinders of its bank; in the block one more than half of all
 * cylinders, three in a four and five in a V8. From memory.
 */
export function bearingsOfCamshaft(type: ValvetrainType, cylinders: number, banks: number): number {
  return 1 + Math.ceil(cylinders / (type === 'pushrod' ? 2 : banks));
}

/** What rubs, for the friction model. */
export function frictionValvetrain(type: ValvetrainType, kind: Lifter): WordEstimate<Friction['valvetrain']> {
  if (type !== 'pushrod') return { value: type, reason: 'follows from the valvetrain' };
  return {
    value: kind.endsWith('roller') ? 'roller-lifter' : 'flat-tappet',
    reason: 'follows from the lifters',
  };
}
