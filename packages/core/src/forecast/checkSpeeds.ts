/** Whether a forecast can be asked for: its speeds, and how many cylinders march. */

import type { Fidelity } from '../assembly/symmetry.ts';
import { DomainError } from '../base/errors.ts';

/** @throws {@link DomainError} where speeds are missing, no numbers, not rising or out of 100 to 30 000 rpm */
export function checkSpeeds(rpm: readonly number[]): void {
  // A program without types may leave them out.
  if (!(rpm?.length > 0)) throw new DomainError('rpm', rpm?.length ?? 'none', 'one speed or more');
  rpm.forEach((n, i) => {
    checkSpeed(`rpm[${i}]`, n);
    if (i > 0 && !(n > rpm[i - 1])) throw new DomainError(`rpm[${i}]`, n, `above ${rpm[i - 1]}`);
  });
}

/** @throws {@link DomainError} where a speed is no number or out of 100 to 30 000 rpm */
export function checkSpeed(parameter: string, rpm: unknown): void {
  // Text out of an address or a form would compare as text, and stand in the result as such.
  if (typeof rpm !== 'number') throw new DomainError(parameter, `a ${typeof rpm}`, 'a number of 1/min');
  if (!(rpm >= 100 && rpm <= 30_000)) throw new DomainError(parameter, rpm, 'in [100, 30000] 1/min');
}

/** @throws {@link DomainError} where it is another word */
export function checkFidelity(fidelity: Fidelity | undefined): void {
  if (fidelity !== undefined && fidelity !== 'representative' && fidelity !== 'all')
    throw new DomainError('fidelity', fidelity, 'representative or all');
}
