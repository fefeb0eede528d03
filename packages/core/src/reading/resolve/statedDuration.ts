/** What a file says of how long a lobe is open. */
import type { Side } from '../../combination/sides.ts';
import { standardDuration } from '../../geometry/lobeCard.ts';
import { checkingHeight } from '../defaults/cam.ts';
import type { Lifter } from '../schema/camSection.ts';
import type { PartialFile } from '../schema/combinationFile.ts';
import { followerOf, LIFT_BESIDE_ADVERTISED } from './cardLobe.ts';

/** Duration at 0.050 in as stated, or estimated from the longest stated line [crank deg]; null where the file gives none. */
export function statedDuration({ cam }: PartialFile, side: Side, kind: Lifter): number | null {
  const card = cam?.[side];
  if (card?.at050 !== undefined) return card.at050;
  if (card?.advertised === undefined) return null;
  const lift = card.checkedAt ?? checkingHeight(kind).value;
  return standardDuration([{ duration: card.advertised, lift }], LIFT_BESIDE_ADVERTISED, followerOf(kind));
}
