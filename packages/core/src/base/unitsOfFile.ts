/** The units of mathjs for Node: from its one minified file, loaded in a fraction of the time that its thousand modules take. */
import math from 'mathjs/lib/browser/math.js';
import type { UnitSizes } from './unitSize.ts';
import { unitsOfMathjs } from './unitsOfMathjs.ts';

/** See {@link UnitSizes}. */
export const unitSize: UnitSizes = /* @__PURE__ */ unitsOfMathjs(math.create().Unit);
