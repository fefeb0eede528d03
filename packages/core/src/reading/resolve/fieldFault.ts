/** A field that can't be resolved beside the others. */
import type { PlainCode } from '../../combination/problem.ts';
import type { FieldPlace } from '../schema/fieldPath.ts';

/** Thrown while gaps are filled, where a stated field contradicts what was made of others; becomes a problem of the file. */
export class FieldFault extends Error {
  readonly path: FieldPlace;
  readonly code: PlainCode;

  constructor(path: FieldPlace, code: PlainCode, message: string) {
    super(message);
    this.name = 'FieldFault';
    this.path = path;
    this.code = code;
  }
}
