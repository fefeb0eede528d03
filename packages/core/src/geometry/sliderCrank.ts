/** Slider-crank without pin offset: piston position, volume and surfaces against crank angle. */
import { DomainError } from '../base/errors.ts';

/** The mechanism of one cylinder. Angle 0 is top centre. */
export interface SliderCrank {
  /** [m] */
  readonly bore: number;
  /** [m] */
  readonly stroke: number;
  /** Centre to centre [m], longer than half the stroke. */
  readonly rodLength: number;
  /** Volume at top centre [m3]. */
  readonly clearanceVolume: number;
}

/** A checked mechanism. @throws {@link DomainError} naming the first argument out of range */
export function sliderCrank(
  bore: number,
  stroke: number,
  rodLength: number,
  clearanceVolume: number,
): SliderCrank {
  if (!(bore > 0)) throw new DomainError('bore', bore, 'positive m');
  if (!(stroke > 0)) throw new DomainError('stroke', stroke, 'positive m');
  if (!(rodLength > stroke / 2))
    throw new DomainError('rodLength', rodLength, 'longer than half the stroke, m');
  if (!(clearanceVolume > 0)) throw new DomainError('clearanceVolume', clearanceVolume, 'positive m3');
  return { bore, stroke, rodLength, clearanceVolume };
}

/** Piston area [m2]: of the bore, dome and dish left out. */
export function pistonArea({ bore }: Pick<SliderCrank, 'bore'>): number {
  return (Math.PI / 4) * bore * bore;
}

/** Volume swept by one piston [m3]. */
export function sweptVolume(crank: Pick<SliderCrank, 'bore' | 'stroke'>): number {
  return pistonArea(crank) * crank.stroke;
}

/**
 * Distance of the piston from its top centre [m].
 *
 * r + l - (r cos + sqrt(l^2 - r^2 sin^2)), exact for a pin without offset.
 *
 * @param angle - crank angle after top centre [rad], any
 * @see Heywood (1988), Internal Combustion Engine Fundamentals, section 2.2 (from memory)
 */
export function pistonPosition(crank: SliderCrank, angle: number): number {
  const radius = crank.stroke / 2;
  const sine = radius * Math.sin(angle);
  // Rearranged so that nothing cancels near top centre: l - sqrt(l^2 - s^2) = s^2 / (l + sqrt(l^2 - s^2)).
  const half = Math.sin(angle / 2);
  const rod = crank.rodLength;
  return 2 * radius * half * half + (sine * sine) / (rod + Math.sqrt(rod * rod - sine * sine));
}

/** Piston travel by crank angle [m/rad]: the derivative of {@link pistonPosition}. */
export function pistonTravelRate(crank: SliderCrank, angle: number): number {
  const radius = crank.stroke / 2;
  const sine = radius * Math.sin(angle);
  const cosine = radius * Math.cos(angle);
  return sine + (sine * cosine) / Math.sqrt(crank.rodLength * crank.rodLength - sine * sine);
}

/** Cylinder volume [m3] at a crank angle after top centre [rad]. */
export function cylinderVolume(crank: SliderCrank, angle: number): number {
  return crank.clearanceVolume + pistonArea(crank) * pistonPosition(crank, angle);
}

/** Volume [m3] and its derivative by crank angle [m3/rad], as the mechanism moves. */
export interface MovedVolume {
  V: number;
  dV: number;
}

/**
 * {@link cylinderVolume} and its derivative at a crank angle after top centre [rad], written into `moved`: half the sines and roots of
 * the two one by one.
 */
export function moveVolume(crank: SliderCrank, angle: number, moved: MovedVolume): void {
  const radius = crank.stroke / 2;
  const rod = crank.rodLength;
  const half = Math.sin(angle / 2);
  const sine = 2 * radius * half * Math.cos(angle / 2);
  const lift = 2 * radius * half * half;
  const along = Math.sqrt(rod * rod - sine * sine);
  const area = pistonArea(crank);
  moved.V = crank.clearanceVolume + area * (lift + (sine * sine) / (rod + along));
  moved.dV = area * sine * (1 + (radius - lift) / along);
}

/**
 * Liner surface uncovered below the piston's top-centre position [m2]; the clearance's own side wall is left out.
 *
 * @param volume - cylinder volume now [m3]
 */
export function linerArea(crank: SliderCrank, volume: number): number {
  return (4 * (volume - crank.clearanceVolume)) / crank.bore;
}

/** Mean piston speed [m/s] at a crank speed [rad/s]. */
export function meanPistonSpeed(stroke: number, crankSpeed: number): number {
  return (stroke * crankSpeed) / Math.PI;
}
