/** What long work needs of an `AbortSignal`: one satisfies it, in Node, a browser or a worker. */
export interface Cancellation {
  /** Whether work is to stop. */
  readonly aborted: boolean;
  /** Throws the reason of the cancellation where there is one. */
  throwIfAborted(): void;
}
