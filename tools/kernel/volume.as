// Volumes, as packages/core/src/network/volume.ts has them. What stands where in the block of one, VOLUME_BLOCK there says.
import { get, put } from './columns';
import { B, E, GAMMA, P, R, RHO, T, writeSide } from './gas';

@inline const SIZE = 7;
@inline const SIDE: usize = 8;
@inline const OPENING = 17;

@inline const VOLUME_SHARE = 0.8;

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

/** Raises the number at `rate` to the fastest of `count` volumes. */
export function raiseVolumes(list: usize, count: i32, rate: usize): void {
  for (let j = 0; j < count; j++) {
    const volume = <usize>load<i32>(list + (<usize>j << 3));
    const side = volume + (SIDE << 3);
    const sound = sqrt(get(side, GAMMA) * get(side, R) * get(side, T));
    const fastest = (VOLUME_SHARE * get(<usize>get(volume, OPENING), 0) * sound) / get(volume, SIZE);
    if (fastest > get(rate, 0)) put(rate, 0, fastest);
  }
}

export function areVolumesSound(list: usize, count: i32): bool {
  for (let j = 0; j < count; j++) {
    const side = <usize>load<i32>(list + (<usize>j << 3)) + (SIDE << 3);
    if (!(get(side, P) > 0 && get(side, T) > 0)) return false;
  }
  return true;
}
