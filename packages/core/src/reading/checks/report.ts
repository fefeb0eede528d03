/** Where checks put what they find. */
import { counted } from '../../base/counted.ts';
import type { UnitSystem } from '../../combination/combination.ts';
import type { PlainCode, Problem } from '../../combination/problem.ts';
import { airPressureText, areaText, depressionText, lengthText } from '../../combination/sizeText.ts';
import type { CombinationDocument } from '../combinationDocument.ts';
import { problemOf } from '../problemOf.ts';
import type { FieldPlace } from '../schema/fieldPath.ts';

/** Collects problems of one document. */
export class Report {
  readonly problems: Problem[] = [];
  readonly #document: CombinationDocument;

  constructor(document: CombinationDocument) {
    this.#document = document;
  }

  problem(path: FieldPlace | '', code: PlainCode, message: string, hint: string | null = null): void {
    this.problems.push(problemOf(this.#document, path, code, message, hint));
  }

  /** A length [m] as messages show it. */
  length(metres: number): string {
    return lengthText(metres, this.#units);
  }

  /** An area [m2], likewise. */
  area(area: number): string {
    return areaText(area, this.#units);
  }

  /** A depression of a flow bench [Pa], likewise. */
  depression(depression: number): string {
    return depressionText(depression, this.#units);
  }

  /** A pressure of the air [Pa], likewise. */
  airPressure(pressure: number): string {
    return airPressureText(pressure, this.#units);
  }

  get #units(): UnitSystem {
    return this.#document.data['units'] === 'si' ? 'si' : 'trade';
  }

  /** A list that has one value for each cylinder, once it is known how many there are. */
  each(
    path: FieldPlace,
    code: PlainCode,
    count: number | undefined,
    cylinders: number | undefined,
    hint: string | null = null,
    noun = 'value',
  ): void {
    if (count === undefined || cylinders === undefined || count === cylinders) return;
    const message = `has ${counted(count, noun)} for ${counted(cylinders, 'cylinder')}`;
    this.problem(path, code, message, hint);
  }

  /** Whether the file has this section, readable or not. */
  wrote(section: string): boolean {
    return Object.hasOwn(this.#document.data, section) && this.#document.data[section] !== null;
  }
}
