/** The unit part of mathjs for whoever bundles: module by module, so that the rest of it is left out. */
import { create, createUnitDependencies, type MathJsInstance, unitDependencies } from 'mathjs';

/** A unit system of its own, which nothing else that uses mathjs sees. */
export function newMath(): MathJsInstance {
  return create({ unitDependencies, createUnitDependencies });
}
