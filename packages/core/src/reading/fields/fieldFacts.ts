/** What is known of a field beside its schema and its default. */
import type { Combination } from '../../combination/combination.ts';
import type { Plain } from '../combinationDocument.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import type { Access } from './access.ts';
import type { ErrorName } from './errorName.ts';

/** Each is left out where there is nothing to say. */
export interface FieldFacts {
  /** How far the engine has to come apart for a change of it, and of what lies below it. Common practice, no source. */
  readonly access?: Access;
  /** Only a dyno sheet of the engine tells it, no rule or bench: a figure of the model. Holds for what lies below it too. */
  readonly settledBy?: 'pull';
  /** What gives way when it, or something in it, is set. */
  readonly entails?: readonly Entailment[];
  /** How wrong a stated value may be. */
  readonly errors?: readonly UsualError[];
  /** Its value, as a file would have it, where neither the file nor an estimate gives it and other fields do. */
  readonly follows?: (combination: Combination) => Plain;
  /**
   * What its estimate does to other estimates. `sizes-them`: nothing else, so that it moves nothing once those are pinned. `rests-on-them`:
   * it is made anew from what is pinned, and never pinned itself. `of-measuring`: nothing, and no forecast is moved by it: it says how
   * measured figures are read.
   */
  readonly estimate?: 'sizes-them' | 'rests-on-them' | 'of-measuring';
  /** What a fit of it takes the place of: a calibration moves one of the two, never both. */
  readonly fitTakesIn?: { readonly estimates: readonly FieldPath[]; readonly errors?: readonly ErrorName[] };
  /** What the model leaves out of a change of it, for people. */
  readonly leftOut?: string;
}

/** What gives way when a field is set. */
export interface Entailment {
  /** Other ways of saying it, stated or estimated: two of them in one file would contradict each other. */
  readonly drops?: readonly FieldPath[];
  /** Estimates of the same part, made anew from what is now known; a stated value stays. */
  readonly releases?: readonly FieldPath[];
  /** What would follow from the fields set, and keeps the value it has. */
  readonly holds?: readonly FieldPath[];
  /** Only where the file has this field. */
  readonly beside?: FieldPath;
  /** Only where the field becomes this word. */
  readonly to?: string;
  /** Only where this field is set too. */
  readonly with?: FieldPath;
  /** Only where each side has a camshaft of its own, or only where none has. */
  readonly camshafts?: 'shared' | 'own';
}

/** An error that one field of the file shows. */
export interface UsualError {
  /** What is wrong; fields that share a name move together. */
  readonly name: ErrorName;
  /** `scale`: a share of the value. `add`: an amount in `unit`. */
  readonly by: 'scale' | 'add';
  /** One standard deviation [-] or [`unit`]; its sign is against that of other fields of the same name. */
  readonly sigma: number;
  /** Unit as written in a file; empty for a pure number. */
  readonly unit: string;
  /** Where the file is silent, what it means; left out: the field must be there. */
  readonly silent?: number;
  /** Fields that, when changed, bring a new part with an error of its own. Empty: the error belongs to the bench or the block. */
  readonly part: readonly FieldPath[];
  /** Where the size of it comes from; common practice, no source, unless it says more. */
  readonly reason: string;
}

/** A row for a section and for every field of it. */
export type FieldsOf<Section extends FieldPath> = {
  readonly [Path in FieldPath as Path extends Section | `${Section}.${string}` ? Path : never]: FieldFacts;
};

/** Rows of sections of one form, by names within the section, as rows by path; facts, or words. */
export function below<Section extends FieldPath, Name extends string, Row = FieldFacts>(
  section: Section,
  rows: Readonly<Record<Name, Row>>,
): { readonly [Path in `${Section}.${Name}`]: Row } {
  const entries = Object.entries<Row>(rows).map(([name, row]) => [`${section}.${name}`, row]);
  return Object.fromEntries(entries) as { readonly [Path in `${Section}.${Name}`]: Row };
}
