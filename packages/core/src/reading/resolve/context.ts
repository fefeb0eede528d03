/** What every resolver works with. */
import type { Ledger } from '../../combination/ledger.ts';
import type { CombinationFile, PartialFile } from '../schema/combinationFile.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import type { Sheets } from '../sheet/readSheets.ts';

export interface ResolveContext {
  readonly file: CombinationFile;
  readonly sheets: Sheets;
  readonly ledger: Ledger<FieldPath>;
  /** What somebody wrote: the file and its sheets, or less, where estimates of an earlier reading are written out in the file. */
  readonly written: { readonly file: PartialFile; readonly sheets: Sheets };
}
