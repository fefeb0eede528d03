/** How fast the piston pushes the charge out of the narrow part of the chamber: squish. */
import { DomainError } from '../base/errors.ts';
import { maximise } from '../numerics/maximise.ts';
import { findRoot } from '../numerics/root.ts';
import { pistonArea, pistonPosition, pistonTravelRate, type SliderCrank } from './sliderCrank.ts';

/** Shapes of combustion chamber, by what is seen with the head off. */
export const CHAMBER_SHAPES = ['wedge', 'bathtub', 'bowl-in-piston', 'hemispherical', 'pent-roof'] as const;
/** Form of a combustion chamber. */
export type ChamberShape = (typeof CHAMBER_SHAPES)[number];

/** The narrow part of a chamber, one cylinder. */
export interface SquishGap {
  readonly shape: ChamberShape;
  /** Area of the narrow part over the area of the bore [-], from 0 up to 1. */
  readonly squishArea: number;
  /** Piston to head in the narrow part at top centre [m]. */
  readonly squishHeight: number;
}

/** Squish is fastest within so many degrees before top centre. */
const SEARCHED = 40;
const ANGLE_TOLERANCE = 0.01;
const RAD = Math.PI / 180;

/**
 * Squish velocity over mean piston speed [-] at a crank angle before firing top centre [deg]; 0 without a narrow part.
 *
 * As / P (1 / (z + c) - 1 / (z + C)) times piston speed over its mean, for area As and inner edge P of the narrow part, piston
 * distance z from top centre, gap c, and C the height of the whole chamber spread over the bore. It is what continuity asks
 * for at one density everywhere; leakage and wall heat take something off, the more the narrower the gap.
 *
 * Source: Heywood (1988), section 8.4, from memory; derived from continuity here. An edge by {@link squishEdge}.
 *
 * @param before - crank angle before top centre [deg], 0 to 180
 */
export function squishVelocity(crank: SliderCrank, gap: SquishGap, before: number): number {
  if (!(before >= 0 && before <= 180)) throw new DomainError('before', before, 'in [0, 180] deg');
  const { squishArea: share, squishHeight: height } = gap;
  if (!(share >= 0 && share < 1)) throw new DomainError('squishArea', share, 'in [0, 1)');
  if (!(height > 0)) throw new DomainError('squishHeight', height, 'positive m');
  if (share === 0) return 0;
  const whole = crank.clearanceVolume / pistonArea(crank);
  const z = pistonPosition(crank, before * RAD);
  const speed = (Math.PI * pistonTravelRate(crank, before * RAD)) / crank.stroke;
  const width = (share * pistonArea(crank)) / squishEdge(gap.shape, share, crank.bore);
  // A gap as high as the chamber is none.
  return Math.max(0, width * (1 / (z + height) - 1 / (z + whole)) * speed);
}

/** Highest squish velocity over mean piston speed [-], some degrees before top centre. */
export function peakSquishVelocity(crank: SliderCrank, gap: SquishGap): number {
  return maximise((before) => squishVelocity(crank, gap, before), 0, SEARCHED, ANGLE_TOLERANCE).value;
}

/**
 * Length of the edge over which a narrow part of some share of the bore empties [m]: the chord of one side (wedge), of two
 * equal sides (bathtub, pent roof), or the circle inside a ring (bowl in the piston, hemispherical).
 */
export function squishEdge(shape: ChamberShape, share: number, bore: number): number {
  if (!(share > 0 && share < 1)) throw new DomainError('share', share, 'in (0, 1)');
  if (shape === 'wedge') return chord(share, bore);
  if (shape === 'bathtub' || shape === 'pent-roof') return 2 * chord(share / 2, bore);
  return Math.PI * bore * Math.sqrt(1 - share);
}

/** Chord that cuts a share of a disc off [m]: share = (angle - sin angle) / (2 pi). */
function chord(share: number, bore: number): number {
  const { x: angle } = findRoot((a) => a - Math.sin(a) - 2 * Math.PI * share, 0, 2 * Math.PI);
  return bore * Math.sin(angle / 2);
}
