/** The step under way, handed from function to function as an array: numbers handed one by one are put on the heap. */

/** Crank angles [deg] where a step begins and ends, the time it takes [s], and the speed [deg/s]. */
export const CLOCK = { from: 0, to: 1, seconds: 2, speed: 3 } as const;
export const CLOCK_SIZE = 4;
