/** Names of the errors of measurement. */
import type { Side } from '../../combination/sides.ts';

/** Errors of measurement by name, short and stable. */
export type ErrorName =
  | 'flow bench'
  | `${Side} flow sheet`
  | 'carburetor rating'
  | 'venturi coefficient'
  | 'throttle'
  | 'air cleaner rating'
  | 'muffler rating'
  | 'back-pressure'
  | 'compression'
  | 'squish area'
  | 'squish height'
  | 'cam phase'
  | `${Side} duration`
  | `${Side} rocker ratio`
  | `${Side} lash`;
