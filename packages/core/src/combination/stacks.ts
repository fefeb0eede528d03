/** Throttles or carburetors that stand in the runners. */

/** A throttle or carburetor for each cylinder, on its way along the runner. */
export interface Stacks {
  /** Mouth of the trumpet to the throttle [m]. */
  readonly at: number;
  /** Bore there [m2]; of a carburetor the runner's own area. */
  readonly bore: number;
  /** Most that a sheet of trumpet and throttle leaves for the throttle, one over its area squared [1/m4]; absent: no such sheet. */
  readonly most?: number;
  /** Way into the airbox that is the plenum, and its filter; absent: the trumpets stand in the open. */
  readonly inlet?: {
    /** Pipe into the box [m], [m2]; no pipe where the length is 0. */
    readonly length: number;
    readonly area: number;
  };
}
