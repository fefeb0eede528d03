/** Chambers of the reference engine by which the trade quotes burns and total timing. */
import type { ChamberForm } from '../../src/processes/chamberBurn.ts';

/** Deck and gasket as estimated. */
const HEIGHT = 1.4e-3;

export const FORMS = {
  'pent roof': { shape: 'pent-roof', plug: 'central', squishArea: 0.12, squishHeight: HEIGHT },
  'wedge with much squish': { shape: 'wedge', plug: 'side', squishArea: 0.28, squishHeight: HEIGHT },
  wedge: { shape: 'wedge', plug: 'side', squishArea: 0.18, squishHeight: HEIGHT },
  'wedge with little squish': { shape: 'wedge', plug: 'side', squishArea: 0.08, squishHeight: HEIGHT },
  hemispherical: { shape: 'hemispherical', plug: 'side', squishArea: 0, squishHeight: HEIGHT },
} as const satisfies Readonly<Record<string, ChamberForm>>;

export type FormName = keyof typeof FORMS;
