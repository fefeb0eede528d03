/** The units of mathjs for Node: from its one minified file, loaded in a fraction of the time that its thousand modules take. */
import math from 'mathjs/lib/browser/math.js';
import type { UnitClass } from './unitClass.ts';

/** A class of units of its own. */
export function newUnitClass(): UnitClass {
  return math.create().Unit;
}
