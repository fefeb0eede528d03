/** The chamber: compression from the volumes, or the stated ratio. */

import type { Chamber } from '../../combination/combination.ts';
import { clearanceFromRatio, clearanceVolume, compressionRatio } from '../../geometry/compression.ts';
import { chamberClass, crevice, deck, gasketBore, gasketThickness } from '../defaults/clearance.ts';
import type { ResolveContext } from './context.ts';
import type { ResolvedBlock } from './resolveBlock.ts';

/** Stated and computed ratios may differ by this much without, and with, a remark [-]. */
export const COMPRESSION_REMARK = 0.1;
export const COMPRESSION_LIMIT = 0.3;

export function resolveChamber(
  context: ResolveContext,
  { block, cylinderVolume }: ResolvedBlock,
  valves: number,
): Chamber {
  const { file, ledger } = context;
  const section = file.chamber ?? {};
  const kind = ledger.word('chamber.class', section.class, () => chamberClass(valves));
  if (section.volume === undefined) {
    const ratio = section.compression ?? Number.NaN;
    return {
      class: kind,
      clearanceVolume: clearanceFromRatio(cylinderVolume, ratio),
      compressionRatio: ratio,
    };
  }
  const { bore } = block;
  const clearance = clearanceVolume({
    chamber: section.volume,
    dome: (section.dome ?? 0) - (section.dish ?? 0),
    bore,
    deckHeight: ledger.quantity('chamber.deck', section.deck, 'length', 'in', deck),
    gasketBore: ledger.quantity('chamber.gasketBore', section.gasketBore, 'length', 'in', () =>
      gasketBore(bore),
    ),
    gasketThickness: ledger.quantity(
      'chamber.gasketThickness',
      section.gasketThickness,
      'length',
      'in',
      gasketThickness,
    ),
    crevice: ledger.quantity('chamber.crevice', section.crevice, 'volume', 'cc', () => crevice(bore)),
  });
  return {
    class: kind,
    clearanceVolume: clearance,
    compressionRatio: compressionRatio(cylinderVolume, clearance),
  };
}
