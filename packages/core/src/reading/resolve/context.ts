/** What every resolver works with. */
import type { Ledger } from '../../combination/ledger.ts';
import type { CombinationFile } from '../schema/combinationFile.ts';
import type { FieldPath } from '../schema/fieldPath.ts';
import type { Sheets } from '../sheet/readSheets.ts';

export interface ResolveContext {
  readonly file: CombinationFile;
  readonly sheets: Sheets;
  readonly ledger: Ledger<FieldPath>;
}
