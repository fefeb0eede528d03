/** Areas along the two tracts of a cylinder, and the friction of their walls: what flow bench and network both see. */

/** Distances from the left end [m], rising from 0, and the area there [m2]; linear between. */
export type Profile = readonly { readonly x: number; readonly area: number }[];

/** Share of an intake port's length over which the runner's area becomes its own [-]; from memory. */
const INTAKE_BLEND = 0.2;

/**
 * Length that waves see beyond a pipe's end, over its radius [-]. In the open, without a flange: 0.6133 (Levine and
 * Schwinger, Phys. Rev. 73 (1948) 383). A runner's mouth stands in the floor or wall of a plenum, between that and an endless
 * flange, 0.8217 (Nomura, Yamamura and Inawashiro, J. Phys. Soc. Japan 15 (1960) 510; both from memory): taken in the middle.
 */
export const OPEN_END = 0.6133;
export const PLENUM_END = 0.72;

/** Length that waves see beyond the end of a pipe [m]. */
export function endCorrection(area: number, perRadius: number): number {
  return perRadius * Math.sqrt(area / Math.PI);
}

/** Runner and port of one cylinder. */
export interface IntakeTract {
  /** Runner, and the port behind it, as long as waves see them [m]. */
  readonly runnerLength: number;
  readonly portLength: number;
  /** Area at the plenum, at the face of the head and of the port [m2]. */
  readonly entryArea: number;
  readonly exitArea: number;
  readonly portArea: number;
  /** Length beyond the mouth that waves see, over its radius [-]; absent: that of a mouth in a plenum. */
  readonly mouthEnd?: number;
}

/** From the plenum to the valve; the mouth's end correction stands in front. */
export function intakeProfile(tract: IntakeTract): Profile {
  const mouth = endCorrection(tract.entryArea, tract.mouthEnd ?? PLENUM_END);
  const face = mouth + tract.runnerLength;
  return [
    { x: 0, area: tract.entryArea },
    { x: mouth, area: tract.entryArea },
    ...intakePortProfile(tract).map(({ x, area }) => ({ x: face + x, area })),
  ];
}

/** From the face of the head to the valve: the bare head on a bench. */
export function intakePortProfile({
  portLength,
  exitArea,
  portArea,
}: Pick<IntakeTract, 'portLength' | 'exitArea' | 'portArea'>): Profile {
  return [
    { x: 0, area: exitArea },
    { x: INTAKE_BLEND * portLength, area: portArea },
    { x: portLength, area: portArea },
  ];
}

/** Port and pipe of one cylinder. */
export interface ExhaustTract {
  readonly portLength: number;
  /** [m] */
  readonly pipeLength: number;
  /** [m2] */
  readonly portArea: number;
  readonly pipeArea: number;
}

/** From the valve to the end of the pipe. An exhaust port widens on its whole way to the face; from memory. */
export function exhaustProfile({ portLength, pipeLength, portArea, pipeArea }: ExhaustTract): Profile {
  return [
    { x: 0, area: portArea },
    { x: portLength, area: pipeArea },
    { x: portLength + pipeLength, area: pipeArea },
  ];
}

/** The same duct from its other end. */
export function reversed(profile: Profile): Profile {
  const length = profile[profile.length - 1].x;
  return [...profile].reverse().map(({ x, area }) => ({ x: length - x, area }));
}

/** A profile cut in two at a distance from its left end [m]; the second counts from there. */
export function cutAt(profile: Profile, x: number): readonly [Profile, Profile] {
  const here = areaAt(profile, x);
  const before = profile.filter((point) => point.x < x);
  const behind = profile.filter((point) => point.x > x);
  return [
    [...before, { x, area: here }],
    [{ x: 0, area: here }, ...behind.map((point) => ({ x: point.x - x, area: point.area }))],
  ];
}

/** Area at x on a profile [m2]; held beyond its ends. */
export function areaAt(profile: Profile, x: number): number {
  for (let i = 1; i < profile.length; i++) {
    const a = profile[i - 1];
    const b = profile[i];
    if (x <= b.x) return a.area + ((b.area - a.area) * Math.max(0, x - a.x)) / (b.x - a.x);
  }
  return profile[profile.length - 1].area;
}
