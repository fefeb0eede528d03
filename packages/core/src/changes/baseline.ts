/** What changes start from: a combination whose estimates are written out. */

import type { Result } from '../base/result.ts';
import { parseQuantity } from '../base/units.ts';
import type { Assumed, Combination } from '../combination/combination.ts';
import type { Problem } from '../combination/problem.ts';
import { SIDES } from '../combination/sides.ts';
import type { CombinationDocument } from '../reading/combinationDocument.ts';
import { pinAssumed } from '../reading/editDocument.ts';
import { fieldOf, withField } from '../reading/fieldOf.ts';
import { inherited } from '../reading/fields/fieldTable.ts';
import { type ResolveOptions, resolveDocument } from '../reading/resolveDocument.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';
import type { SheetSource } from '../reading/sheet/readSheets.ts';

/** A combination ready to be changed. Plain and serialisable. */
export interface Baseline {
  /** The file with every estimate written out. */
  readonly document: CombinationDocument;
  /** The file as written. */
  readonly stated: CombinationDocument;
  /** With the ledger of what the file left out. */
  readonly combination: Combination;
  /** Text of the sheets the file names, by name. */
  readonly sheets: Readonly<Record<string, string>>;
}

/**
 * Resolves a document, writes its estimates out and resolves it again. `sheet` gives the text of the sheets it names.
 *
 * @example
 * ```ts
 * const read = readDocument(text, { file: 'engine.yaml' });
 * const pinned = read.ok ? pinBaseline(read.value) : read;
 * if (!pinned.ok) throw new Error(pinned.problems.map(problemLine).join('\n'));
 * ```
 */
export function pinBaseline(
  document: CombinationDocument,
  options: { readonly sheet?: SheetSource | undefined } = {},
): Result<Baseline, Problem> {
  const sheets: Record<string, string> = {};
  const sheet: SheetSource = (name) => {
    const text = options.sheet?.(name);
    if (text !== undefined) sheets[name] = text;
    return text;
  };
  const first = resolveDocument(document, { sheet });
  if (!first.ok) return first;
  const { assumed, warnings } = first.value;
  const written = withCamAngles(withRockerRatios(document), first.value);
  const estimates = assumed.filter(({ path }) => inherited(path, 'estimate') !== 'rests-on-them');
  const pinned = withPinned(written, estimates, { sheet: sheetsOf(sheets), written: document });
  if (!pinned.ok) return pinned;
  const combination = { ...pinned.value.combination, assumed, warnings };
  return { ok: true, value: { document: pinned.value.document, stated: document, combination, sheets } };
}

type Pinned = Pick<Baseline, 'document' | 'combination'>;

/**
 * With the estimates written out. Beside sizes that hardly any engine has, one may come to what no file may state: it stays an estimate,
 * made anew with each change.
 */
function withPinned(
  written: CombinationDocument,
  estimates: readonly Assumed[],
  options: ResolveOptions,
): Result<Pinned, Problem> {
  const document = pinAssumed(written, estimates);
  const resolved = resolveDocument(document, options);
  if (resolved.ok) return { ok: true, value: { document, combination: resolved.value } };
  const beyond = (path: string): boolean =>
    resolved.problems.some((problem) => problem.code === 'out-of-range' && problem.path === path);
  const left = estimates.filter(({ path }) => !beyond(path));
  return left.length < estimates.length ? withPinned(written, left, options) : resolved;
}

/** The sheets of a baseline, then those of another source. */
export function sheetsOf(sheets: Baseline['sheets'], others?: SheetSource): SheetSource {
  return (name) => (Object.hasOwn(sheets, name) ? sheets[name] : others?.(name));
}

/**
 * Lobe and valve lift on one card say the rocker ratio in another way. It is written out, and the valve lift, which then
 * says nothing new, left away: other rockers would contradict it.
 */
function withRockerRatios(document: CombinationDocument): CombinationDocument {
  if (fieldOf(document, 'cam.cardRatio') !== undefined) return document;
  return SIDES.reduce((pinned, side) => {
    if (fieldOf(document, `cam.${side}.cardRatio`) !== undefined) return pinned;
    const lobe = metres(fieldOf(document, `cam.${side}.lobeLift`));
    const valve = metres(fieldOf(document, `cam.${side}.valveLift`));
    if (lobe === null || valve === null) return pinned;
    const path: FieldPath = `valvetrain.${side}Ratio`;
    const withRatio =
      (fieldOf(document, path) ?? null) === null ? withField(pinned, path, valve / lobe) : pinned;
    return withField(withRatio, `cam.${side}.valveLift`, null);
  }, document);
}

/**
 * Centrelines say separation and advance in another way. Written out where one is missing, so that each can be changed for
 * itself.
 */
function withCamAngles(written: CombinationDocument, combination: Combination): CombinationDocument {
  const { intake, exhaust } = combination;
  const document = withMeasuredAngles(written, combination);
  const has = (path: FieldPath): boolean => (fieldOf(document, path) ?? null) !== null;
  if (!has('cam.exhaust.centreline') || has('cam.advance')) return document;
  const separation = `${(intake.centreline + exhaust.centreline) / 2} deg`;
  const withSeparation = has('cam.separation') ? document : withField(document, 'cam.separation', separation);
  return has('cam.intake.centreline')
    ? withSeparation
    : withField(withSeparation, 'cam.intake.centreline', `${intake.centreline} deg`);
}

/** A centreline that was measured with its lobe is written out: the lobe may be moved, and the sheet stays. */
function withMeasuredAngles(document: CombinationDocument, combination: Combination): CombinationDocument {
  const has = (path: FieldPath): boolean => (fieldOf(document, path) ?? null) !== null;
  const isFree = (path: FieldPath): boolean =>
    !has(path) && !combination.assumed.some((entry) => entry.path === path);
  return SIDES.reduce(
    (pinned, side) =>
      has(`cam.${side}.table`) &&
      !has(`cam.${side}.centreline`) &&
      isFree('cam.separation') &&
      isFree('cam.advance')
        ? withField(pinned, `cam.${side}.centreline`, `${combination[side].centreline} deg`)
        : pinned,
    document,
  );
}

/** A length as written [m]; null where it is none. */
export function metres(text: unknown): number | null {
  const length = typeof text === 'string' ? parseQuantity(text, 'length') : null;
  return length?.ok === true ? length.value.kept : null;
}
