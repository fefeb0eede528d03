/** Where checks put what they find. */
import { INCH } from '../../base/constants.ts';
import type { PlainCode, Problem } from '../../combination/problem.ts';
import type { CombinationDocument } from '../readDocument.ts';
import { problemOf } from '../readSections.ts';
import type { FieldPlace } from '../schema/fieldPath.ts';

/** Collects problems of one document. */
export class Report {
  readonly problems: Problem[] = [];
  private readonly document: CombinationDocument;

  constructor(document: CombinationDocument) {
    this.document = document;
  }

  problem(path: FieldPlace | '', code: PlainCode, message: string, hint: string | null = null): void {
    this.problems.push(problemOf(this.document, path, code, message, hint));
  }

  /** Whether the file has this section, readable or not. */
  wrote(section: string): boolean {
    return Object.hasOwn(this.document.data, section) && this.document.data[section] !== null;
  }
}

/** A length [m] as people read it. */
export function inches(metres: number): string {
  return `${Number((metres / INCH).toPrecision(4))} in`;
}

/** An area [m2] as people read it. */
export function squareInches(area: number): string {
  return `${Number((area / (INCH * INCH)).toPrecision(3))} in2`;
}
