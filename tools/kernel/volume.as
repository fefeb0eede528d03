// Volumes, as packages/core/src/network/volume.ts has them. What stands where in the block of one, VOLUME_BLOCK there says.
import { get, put } from './columns';
import { B, E, RHO, writeSide } from './gas';

@inline const SIZE = 7;
@inline const SIDE: usize = 8;

/** Decodes `count` volumes, whose blocks and offsets in the state stand in `list`, from the state at `y`. */
export function decodeVolumes(list: usize, count: i32, y: usize): void {
  for (let j = 0; j < count; j++) {
    const volume = <usize>load<i32>(list + (<usize>j << 3));
    const at = y + (<usize>load<i32>(list + (<usize>j << 3), 4) << 3);
    const side = volume + (SIDE << 3);
    const m = get(at, 0);
    put(side, RHO, m / get(volume, SIZE));
    put(side, E, get(at, 1) / m);
    put(side, B, get(at, 2) / m);
    writeSide(volume, side);
  }
}
