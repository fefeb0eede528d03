/** The chamber: compression from the volumes, or the stated ratio. */

import type { Chamber } from '../../combination/combination.ts';
import { clearanceFromRatio, clearanceVolume, compressionRatio } from '../../geometry/compression.ts';
import type { ChamberForm } from '../../processes/chamberBurn.ts';
import { chamberShape, plugPlace, squishArea, squishHeight } from '../defaults/chamber.ts';
import { crevice, DECK, deck, GASKET_THICKNESS, gasketBore, gasketThickness } from '../defaults/clearance.ts';
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
  const form = chamberForm(context, valves);
  if (section.volume === undefined) {
    const ratio = section.compression ?? Number.NaN;
    const { compressions } = section;
    return {
      // Deck and gasket count beside a chamber volume only: a thinner one that left the ratio alone would mislead.
      ...form(DECK, GASKET_THICKNESS),
      clearanceVolume: clearanceFromRatio(cylinderVolume, ratio),
      compressionRatio: ratio,
      ...(compressions === undefined
        ? {}
        : { clearances: compressions.map((one) => clearanceFromRatio(cylinderVolume, one)) }),
    };
  }
  const { bore } = block;
  const deckHeight = ledger.quantity('chamber.deck', section.deck, 'length', 'in', deck);
  const gasket = ledger.quantity(
    'chamber.gasketThickness',
    section.gasketThickness,
    'length',
    'in',
    gasketThickness,
  );
  const clearance = clearanceVolume({
    chamber: section.volume,
    dome: (section.dome ?? 0) - (section.dish ?? 0),
    bore,
    deckHeight,
    gasketBore: ledger.quantity('chamber.gasketBore', section.gasketBore, 'length', 'in', () =>
      gasketBore(bore),
    ),
    gasketThickness: gasket,
    crevice: ledger.quantity('chamber.crevice', section.crevice, 'volume', 'cc', () => crevice(bore)),
  });
  const { volume, volumes } = section;
  return {
    ...form(deckHeight, gasket),
    clearanceVolume: clearance,
    compressionRatio: compressionRatio(cylinderVolume, clearance),
    ...(volumes === undefined ? {} : { clearances: volumes.map((one) => clearance + one - volume) }),
  };
}

/** What is seen and measured of a chamber, by deck and gasket [m] where the gap itself isn't stated. */
function chamberForm(
  { file, ledger }: ResolveContext,
  valves: number,
): (deckHeight: number, gasket: number) => ChamberForm {
  const section = file.chamber ?? {};
  const shape = ledger.word('chamber.shape', section.shape, () => chamberShape(valves));
  const plug = ledger.word('chamber.plug', section.plug, () => plugPlace(shape));
  const area = ledger.quantity('chamber.squishArea', section.squishArea, 'share', '%', () =>
    squishArea(shape),
  );
  return (deckHeight, gasket) => {
    const estimate = () => squishHeight(deckHeight, gasket);
    // Without squish its height is of no account, and nothing to list.
    const height =
      area === 0
        ? (section.squishHeight ?? estimate().value)
        : ledger.quantity('chamber.squishHeight', section.squishHeight, 'length', 'in', estimate);
    return { shape, plug, squishArea: area, squishHeight: height };
  };
}
