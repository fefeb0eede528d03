/** A turn for others between two pieces of long work. */

/** Lets whatever else waits have its turn, and comes back after it. */
export type Pause = () => Promise<void>;

/** The one thing of the world outside that the library reaches for: every host has it, and it alters no result. */
declare function setTimeout(run: () => void, milliseconds: number): unknown;

/** A turn of the event loop: timers, input and output run, an abort is seen. The default of everything that pauses. */
export const nextTurn: Pause = () =>
  new Promise((resolve) => {
    setTimeout(resolve, 0);
  });
