/** What is wrong with a file: one line for people, one code for machines. */

/** What kind of problem it is: stable, for machines. */
export type ProblemCode =
  | MisspeltCode
  | 'advance-disagrees'
  | 'alias'
  | 'balance'
  | 'banks'
  | 'bore-slip'
  | 'by-cylinder'
  | 'calibration-correlation'
  | 'calibration-knobs'
  | 'cam-twice'
  | 'card-impossible'
  | 'compression-disagrees'
  | 'compression-impossible'
  | 'compression-missing'
  | 'decimal-comma'
  | 'decimal-mixed'
  | 'deck'
  | 'depression-contradicts'
  | 'depression-doubtful'
  | 'dew-point'
  | 'directive'
  | 'divider'
  | 'dome'
  | 'duplicate-field'
  | 'duration-order'
  | 'duration-slip'
  | 'field-name'
  | 'file-empty'
  | 'file-too-long'
  | 'firing-intervals'
  | 'firing-order'
  | 'flow-above-limit'
  | 'flow-lift'
  | 'flow-none'
  | 'flow-points'
  | 'fuel-atoms'
  | 'fuel-heat'
  | 'fuel-unknown'
  | 'gasket-bore'
  | 'groups'
  | 'humidity-twice'
  | 'humidity-unclear'
  | 'inconsistent'
  | 'invalid'
  | 'lash'
  | 'lift-disagrees'
  | 'lift-slip'
  | 'lobe-lift'
  | 'metering-twice'
  | 'missing'
  | 'mixture-twice'
  | 'more-problems'
  | 'muffler'
  | 'name-twice'
  | 'nothing-allowed'
  | 'no-arithmetic'
  | 'no-edits'
  | 'no-effect'
  | 'no-value'
  | 'not-a-combination'
  | 'not-changes'
  | 'not-finite'
  | 'out-of-range'
  | 'pipe-contradicts'
  | 'pipe-twice'
  | 'pipe-wall'
  | 'port-area'
  | 'power-torque'
  | 'pressure-unclear'
  | 'primary-lengths'
  | 'primary-slip'
  | 'primary-step'
  | 'rate-unclear'
  | 'restrictor'
  | 'rod'
  | 'secondary'
  | 'separation-disagrees'
  | 'set-twice'
  | 'several-documents'
  | 'sheet-angle'
  | 'sheet-binary'
  | 'sheet-cells'
  | 'sheet-columns'
  | 'sheet-empty'
  | 'sheet-flow'
  | 'sheet-lift'
  | 'sheet-lobe'
  | 'sheet-missing'
  | 'sheet-number'
  | 'sheet-outside'
  | 'sheet-pulls'
  | 'sheet-quotes'
  | 'sheet-speed'
  | 'sheet-too-long'
  | 'spacer'
  | 'standard-contradicts'
  | 'standard-missing'
  | 'standard-twice'
  | 'standard-unclear'
  | 'standard-unknown'
  | 'stem'
  | 'syntax'
  | 'tag'
  | 'throat'
  | 'timing'
  | 'too-deep'
  | 'unit-mismatch'
  | 'unit-missing'
  | 'value-missing'
  | 'valve-count'
  | 'valves-too-large'
  | 'vapour-pressure'
  | 'venturi'
  | 'volume-missing'
  | 'wrong-kind';

/** Codes of names that are not known. */
export type MisspeltCode = 'unknown-field' | 'unknown-path' | 'unknown-word';

/** Codes that need no more than their message. */
export type PlainCode = Exclude<ProblemCode, MisspeltCode>;

/** What every problem has. */
export interface ProblemPlace {
  /** Name of the file or sheet the problem is in. */
  readonly file: string;
  /** From 1; null where the place is not known. */
  readonly line: number | null;
  /** From 1; null where the place is not known. */
  readonly column: number | null;
  /** Field of the combination file, dots between the names: `cam.intake.advertised`; empty for the whole file. */
  readonly path: string;
  /** What is wrong, without place. */
  readonly message: string;
  /** What to write instead, where that is known. */
  readonly hint: string | null;
}

/** A name that is not known. */
export interface MisspeltProblem extends ProblemPlace {
  /** Stable, for machines. */
  readonly code: MisspeltCode;
  /** The name that was probably meant; null where none is near. */
  readonly nearest: string | null;
}

/** Any other. */
export interface PlainProblem extends ProblemPlace {
  /** Stable, for machines. */
  readonly code: PlainCode;
}

/** One thing that stops a file from being read: ask `code`, and the compiler knows what else there is. */
export type Problem = MisspeltProblem | PlainProblem;

/**
 * A problem as one line: `engine.yaml:4:3 engine.bore needs a unit: '4.155' could be anything (write it like 4.000 in)`.
 *
 * @example
 * ```ts
 * const read = readCombination(text);
 * if (!read.ok) console.error(read.problems.map(problemLine).join('\n'));
 * ```
 */
export function problemLine(problem: ProblemPlace): string {
  const place = [problem.file, problem.line, problem.column].filter((part) => part !== null).join(':');
  const hint = problem.hint === null ? '' : ` (${problem.hint})`;
  return [place, problem.path, `${problem.message}${hint}`].filter((part) => part !== '').join(' ');
}
