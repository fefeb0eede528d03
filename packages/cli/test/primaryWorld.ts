/** An engine that answers to its primaries and its compression alone, for commands that weigh changes of them. */
import { INCH } from '../../core/src/base/constants.ts';
import type { Torque } from './studies.ts';

/** The file of the engine, known by little. */
export const SHOP_MULE = `
name: Shop mule
engine: { bore: 4.000 in, stroke: 3.480 in, cylinders: 8 }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2 }
exhaust: { style: headers, primary: { length: 34 in } }
`;

/** An inch less of primary is worth 2 N m of 400, half a point of compression 5. */
export const torqueByPrimary: Torque = ({ exhaustSystem, chamber }) =>
  400 - 2 * (exhaustSystem.primary.length / INCH - 34) + 10 * (chamber.compressionRatio - 9.5);

/** Speeds of the studies. */
export const BAND = ['--band', '3000:6000'];
