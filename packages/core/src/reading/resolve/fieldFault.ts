/** A field that can't be resolved beside the others. */
import type { PlainCode } from '../../combination/problem.ts';

/** Thrown while gaps are filled, where a stated field contradicts what was made of others; becomes a problem of the file. */
export class FieldFault extends Error {
  readonly path: string;
  readonly code: PlainCode;

  constructor(path: string, code: PlainCode, message: string) {
    super(message);
    this.name = 'FieldFault';
    this.path = path;
    this.code = code;
  }
}
