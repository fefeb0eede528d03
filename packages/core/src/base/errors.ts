/** Errors for a caller's mistakes. A numerical outcome (not converged, for example) is a value, never an error. */

/**
 * An argument outside the domain of a function: names the argument, what was expected and what came.
 *
 * @example
 * ```ts
 * try {
 *   forecast(combination, { rpm: [-1] });
 * } catch (error) {
 *   if (error instanceof DomainError) console.error(error.parameter, error.expected);
 * }
 * ```
 */
export class DomainError extends Error {
  /** The same for every error of this kind. */
  readonly code = 'DOMAIN' as const;
  /** Name of the argument. */
  readonly parameter: string;
  /** What came. */
  readonly value: unknown;
  /** What was expected, in words. */
  readonly expected: string;

  constructor(parameter: string, value: unknown, expected: string) {
    super(`${parameter} must be ${expected}, got ${String(value)}`);
    this.name = 'DomainError';
    this.parameter = parameter;
    this.value = value;
    this.expected = expected;
  }
}
