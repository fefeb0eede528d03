/** `3500:7000` to a band of speeds. */
import type { SpeedBand } from '@valvetide/core';
import { misuse } from '../commandFailure.ts';
import { plainShort } from '../render/plain.ts';
import { HIGHEST_RPM, LOWEST_RPM } from './parseRpm.ts';

/** Both ends are included. */
export function parseBand(text: string): SpeedBand {
  const parts = /^\s*(\d+(?:\.\d+)?)\s*:\s*(\d+(?:\.\d+)?)\s*$/.exec(text);
  if (parts === null) throw misuse(`--band ${plainShort(text)}: write from:to, such as 3500:7000`);
  const [fromRpm, toRpm] = [Number(parts[1]), Number(parts[2])];
  if (!(toRpm >= fromRpm)) throw misuse(`--band ${plainShort(text)}: the band must end above its start`);
  if (!(fromRpm >= LOWEST_RPM && toRpm <= HIGHEST_RPM))
    throw misuse(`--band ${plainShort(text)}: outside ${LOWEST_RPM} to ${HIGHEST_RPM} rpm`);
  return { fromRpm, toRpm };
}
