/** Errors for a caller's mistakes. A numerical outcome (not converged, for example) is a value, never an error. */

/** An argument outside the domain of a function: names the argument, what was expected and what came. */
export class DomainError extends Error {
  readonly code = 'DOMAIN' as const;
  readonly parameter: string;
  readonly value: unknown;
  readonly expected: string;

  constructor(parameter: string, value: unknown, expected: string) {
    super(`${parameter} must be ${expected}, got ${String(value)}`);
    this.name = 'DomainError';
    this.parameter = parameter;
    this.value = value;
    this.expected = expected;
  }
}
