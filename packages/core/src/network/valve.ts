/** Effective area of a valve against crank angle. */

/** What has an angle after firing top centre [deg], a cylinder's working values say. */
interface AtAngle {
  readonly angle: number;
}

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

/** Areas of a valve at one angle [m2]: in the usual direction, and against it. */
export const LIFTED = { along: 0, against: 1 } as const;

/** Areas at an angle after firing top centre [deg], -360 to 360, linear between samples, into a {@link LIFTED}. */
export function liftValve({ area, against, step }: Valve, { angle }: AtAngle, lifted: Float64Array): void {
  const s = (angle + 360) / step;
  const last = area.length - 2;
  let i = s | 0;
  if (i > last) i = last;
  lifted[LIFTED.along] = area[i] + (s - i) * (area[i + 1] - area[i]);
  lifted[LIFTED.against] = against[i] + (s - i) * (against[i + 1] - against[i]);
}
