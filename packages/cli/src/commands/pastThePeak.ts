/** Speeds of a forecast for which nobody named any: past the peak of power, wherever that lies. */

/** Speeds added at most: an engine whose power still rises then is told so. */
const MOST_MORE = 6;

/**
 * The speeds, and more of the same step for as long as power rises at their end.
 *
 * @param rpm - two or more, rising [1/min]
 * @param mostRpm - where to end anyhow [1/min]
 * @param powerAt - power at a speed, roughly; null where it has none
 */
export function pastThePeak(
  rpm: readonly number[],
  mostRpm: number,
  powerAt: (rpm: number) => number | null,
): readonly number[] {
  const speeds = [...rpm];
  const step = speeds[speeds.length - 1] - speeds[speeds.length - 2];
  let before = powerAt(speeds[speeds.length - 2]);
  for (let more = 0; more < MOST_MORE; more++) {
    const last = speeds[speeds.length - 1];
    const here = powerAt(last);
    if (before === null || here === null || here <= before || last + step > mostRpm) break;
    speeds.push(last + step);
    before = here;
  }
  return speeds;
}
