/** A slip that no type checker saw. */

import { DomainError } from '../base/errors.ts';
import type { Combination } from './combination.ts';

/** @throws {@link DomainError} where what was given is no engine: most often a result that was not looked into */
export function needsCombination(given: Combination): void {
  if (!(given?.block?.bore > 0))
    throw new DomainError('combination', typeof given, 'a complete engine, the value of what was read');
}
