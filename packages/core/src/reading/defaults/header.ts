/** Primary tubes, collector and cast manifolds. */
import { FOOT, INCH } from '../../base/constants.ts';
import type { Estimate, WordEstimate } from '../../combination/ledger.ts';
import type { ExhaustStyle } from '../schema/exhaustSection.ts';

/** Mean gas speed in the primary at torque peak [m/s]: 245 ft/s (common practice, no source, as rpm = area x 88200 / in3 a cylinder). */
export const PRIMARY_GAS_SPEED: number = 245 * FOOT;
/** Rated speed over torque-peak speed [-]: 1.25 to 1.45; common practice, no source. */
export const RATED_OVER_TORQUE_PEAK = 1.33;
/** Primary length of a header on a 4 in bore [m]; common practice, no source. Kept the same for other sizes. */
export const HEADER_LENGTH: number = 34 * INCH;
/**
 * Rated speed up to which primaries are as long as usual [rpm], and the power by which they shorten beyond. Of headers with collectors, usual to 8000 rpm on street
 * and strip: 0.78 m at 9 000, 0.54 at 13 500, 0.41 at 18 500 rpm; of pipes of one or two cylinders, 0.65 to 0.7 m at 9 000 rpm (all from memory).
 */
export const HEADER_SHORTENS = {
  shared: { above: 8000, exponent: 0.9 },
  alone: { above: 6000, exponent: 0.6 },
} as const;
/** Cylinders up to which a pipe is mostly one cylinder's own. */
const FEW_PIPES = 2;
/**
 * Length of the branch in a cast manifold over bore [-]: cylinders 1.2 bores apart are on average 1.2 bores from the middle of
 * four, and the flange stands a bore off the outlet (from memory).
 */
export const CAST_LENGTH_RATIO = 2.2;
/** Area of the branch in a cast manifold over exhaust port area [-]; from memory. */
export const CAST_AREA_RATIO = 1.2;
/** Collector over primary, both by their outside diameters as tubes are sold [-]: 1.75 to 1.9; common practice, no source. */
export const COLLECTOR_RATIO = 1.8;
/**
 * Collector or down-pipe length [m]. Behind four primaries: the upper part of the trade's 10 to 20 in, since on a stand a pipe carries the gas
 * away. With 12 in nine eights of makers' catalogues, rated on stands, peak in torque 560 rpm from where they are rated to, with 20 in 270
 * (docs/theory/curve-shape.md). Pipes of one or two cylinders: 12 in; common practice, no source.
 */
export const COLLECTOR_LENGTH: Readonly<Record<'shared' | 'alone' | 'cast', number>> = {
  shared: 18 * INCH,
  alone: 12 * INCH,
  cast: 24 * INCH,
};
/** Tube wall [m]: 18 gauge. */
export const TUBE_WALL: number = 0.049 * INCH;
/** Length of the merge in collector diameters [-]; from memory. */
export const MERGE_LENGTH_RATIO = 1.25;
/** Tube walls at full load [K]; from memory, 700 to 900. */
export const PRIMARY_WALL: Readonly<Record<ExhaustStyle, number>> = { headers: 800, cast: 850 };
export const COLLECTOR_WALL = 700;

export function exhaustStyle(): WordEstimate<ExhaustStyle> {
  return { value: 'headers', reason: 'usual on a stand' };
}

/** Inside diameter of the primary [m]. */
export function primaryInside(
  style: ExhaustStyle,
  sizes: {
    readonly cylinderVolume: number;
    readonly stroke: number;
    readonly ratedSpeed: number;
    readonly portArea: number;
  },
): Estimate {
  if (style === 'cast') {
    const value = Math.sqrt((4 * CAST_AREA_RATIO * sizes.portArea) / Math.PI);
    return {
      value,
      spread: 0.08 * value,
      reason: '1.2 times the exhaust port area for a cast manifold; from memory',
    };
  }
  const speed = sizes.ratedSpeed / RATED_OVER_TORQUE_PEAK;
  // Mean speed over one stroke: volume of the cylinder in half a turn through the tube.
  const area = (sizes.cylinderVolume * speed) / 30 / PRIMARY_GAS_SPEED;
  const value = Math.sqrt((4 * area) / Math.PI);
  return {
    value,
    spread: 0.05 * value,
    reason: '245 ft/s, 75 m/s, at the torque peak, three quarters of rated speed; common practice, no source',
  };
}

function kindOf(cylinders: number): keyof typeof HEADER_SHORTENS {
  return cylinders <= FEW_PIPES ? 'alone' : 'shared';
}

/** Length of a pipe of a fast engine over the usual one [-], by its rated speed [rpm]. */
function shortening(cylinders: number, ratedSpeed: number): number {
  const { above, exponent } = HEADER_SHORTENS[kindOf(cylinders)];
  return Math.min(1, (ratedSpeed / above) ** -exponent);
}

/** @param ratedSpeed - [rpm], asked for where it matters */
export function primaryLength(
  style: ExhaustStyle,
  { bore, cylinders }: { readonly bore: number; readonly cylinders: number },
  ratedSpeed: () => number,
): Estimate {
  if (style === 'cast') {
    const value = CAST_LENGTH_RATIO * bore;
    return { value, spread: 0.1 * value, reason: '2.2 bores in a cast manifold; from memory' };
  }
  const { above } = HEADER_SHORTENS[kindOf(cylinders)];
  const shortened = shortening(cylinders, ratedSpeed());
  const value = HEADER_LENGTH * shortened;
  return {
    value,
    spread: 0.1 * value,
    reason:
      shortened < 1
        ? `usual up to ${above} rpm, shorter for its rated speed; from memory`
        : 'usual for headers, whatever the bore; common practice, no source',
  };
}

/** Bends of a primary, all together [deg]; from memory. */
export const PRIMARY_BENDS: Readonly<Record<ExhaustStyle, number>> = { headers: 180, cast: 90 };

export function primaryBends(style: ExhaustStyle): Estimate {
  const value = PRIMARY_BENDS[style];
  return {
    value,
    spread: value / 3,
    reason:
      style === 'cast'
        ? 'from the port along the manifold; from memory'
        : 'away from the port, along the engine and into the merge; from memory',
  };
}

export function primaryWall(style: ExhaustStyle): Estimate {
  return { value: PRIMARY_WALL[style], spread: 80, reason: 'full load; from memory' };
}

export function tubeWall(): Estimate {
  return { value: TUBE_WALL, spread: null, reason: '18 gauge tube; common practice, no source' };
}

/** Inside diameter of the collector [m] by the primaries that meet in it. */
export function collectorInside(primary: number, primaries: number): Estimate {
  // Four into one is where the ratio comes from; other numbers keep the ratio of areas.
  const outside = COLLECTOR_RATIO * (primary + 2 * TUBE_WALL) * Math.sqrt(primaries / 4);
  const value = outside - 2 * TUBE_WALL;
  return {
    value: Math.max(value, primary),
    spread: 0.06 * value,
    reason: `1.8 primaries outside for four into one${primaries === 4 ? '' : `, an area in proportion for ${primaries}`}; common practice, no source`,
  };
}

/** @param ratedSpeed - [rpm], asked for where it matters */
export function collectorLength(style: ExhaustStyle, cylinders: number, ratedSpeed: () => number): Estimate {
  const estimate = (value: number, reason: string): Estimate => ({ value, spread: 0.3 * value, reason });
  if (style === 'cast') return estimate(COLLECTOR_LENGTH.cast, 'usual for a down-pipe; from memory');
  if (cylinders <= FEW_PIPES)
    return estimate(COLLECTOR_LENGTH.alone, 'usual behind one or two cylinders; common practice, no source');
  const shortened = shortening(cylinders, ratedSpeed());
  return estimate(
    COLLECTOR_LENGTH.shared * shortened,
    shortened < 1
      ? 'usual on a stand, shorter for its rated speed as the primaries are; from memory'
      : 'usual on a stand; common practice, no source',
  );
}

export function mergeVolume(collector: number): Estimate {
  const value = (Math.PI / 4) * collector ** 3 * MERGE_LENGTH_RATIO;
  return { value, spread: 0.4 * value, reason: '1.25 collector diameters of merge; from memory' };
}

export function collectorWall(): Estimate {
  return { value: COLLECTOR_WALL, spread: 80, reason: 'full load; from memory' };
}

/** Secondary over primary inside diameter where two meet [-]: 1.15 to 1.25; common practice, no source. */
export const SECONDARY_RATIO = 1.2;
/** Length of a secondary [m]: 12 to 20 in; common practice, no source. */
export const SECONDARY_LENGTH: number = 15 * INCH;

/** Inside diameter of a secondary [m] by the area of a primary [m2]. */
export function secondaryInside(primaryArea: number): Estimate {
  const value = SECONDARY_RATIO * Math.sqrt((4 * primaryArea) / Math.PI);
  return { value, spread: 0.05 * value, reason: '1.2 primaries where two meet; common practice, no source' };
}

export function secondaryLength(): Estimate {
  return {
    value: SECONDARY_LENGTH,
    spread: 0.2 * SECONDARY_LENGTH,
    reason: 'usual; common practice, no source',
  };
}

/** Inside diameter of a balance tube [m] by the area of a collector [m2]: seven eighths of its diameter, from memory. */
export function balanceInside(collectorArea: number): Estimate {
  const value = 0.875 * Math.sqrt((4 * collectorArea) / Math.PI);
  return { value, spread: 0.1 * value, reason: 'seven eighths of the collector; from memory' };
}

export function balanceLength(): Estimate {
  return { value: 0.4, spread: 0.15, reason: 'from side to side of the car; from memory' };
}

/** Where it joins the collectors [m]: three quarters of their length, from memory. */
export function balancePlace(collectorLength: number): Estimate {
  const value = 0.75 * collectorLength;
  return { value, spread: 0.15 * collectorLength, reason: 'three quarters along the collector; from memory' };
}
