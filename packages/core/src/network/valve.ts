/** Effective area of a valve against crank angle. */

export interface Valve {
  /** Area in the usual direction [m2] at `-360 + i * step` degrees after firing top centre, i = 0 … 720 / step. */
  readonly area: Float64Array;
  /** [deg] */
  readonly step: number;
  /** Area against the usual direction, at the same angles [m2]. */
  readonly against: Float64Array;
  /** Angle at which it leaves the seat [deg after firing top centre], above 0: it may close after 360. */
  readonly opens: number;
  /** Angle at which it is back on the seat [deg after firing top centre], up to 720. */
  readonly closes: number;
}

/** Area at an angle after firing top centre [deg], -360 to 360, linear between samples [m2]; `area` is one of the valve's. */
export function valveArea(area: Float64Array, step: number, angle: number): number {
  const s = (angle + 360) / step;
  const last = area.length - 2;
  let i = s | 0;
  if (i > last) i = last;
  return area[i] + (s - i) * (area[i + 1] - area[i]);
}
