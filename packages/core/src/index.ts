/** Contents page of the library: everything public, grouped as in the house. */
export { DomainError } from './base/errors.ts';
export type * from './combination/combination.ts';
export type * from './forecast/curve.ts';
