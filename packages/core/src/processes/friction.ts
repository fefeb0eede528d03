/** Rubbing friction and accessories of a whole engine from its bearings, pistons, rings and valvetrain. */
import { DomainError } from '../base/errors.ts';

/** Kinds of valvetrain the model tells apart. */
export type Valvetrain = 'flat-tappet' | 'roller-lifter' | 'direct-acting' | 'finger-follower' | 'rocker-arm';

/** What friction depends on besides speed. Lengths [m]. */
export interface FrictionInput {
  readonly bore: number;
  readonly stroke: number;
  readonly cylinders: number;
  readonly compressionRatio: number;
  readonly mainBearings: number;
  readonly mainDiameter: number;
  readonly mainLength: number;
  /** Rod bearing, one per cylinder. */
  readonly rodDiameter: number;
  readonly rodLength: number;
  readonly valvetrain: Valvetrain;
  /** Bearings of all camshafts together. */
  readonly camBearings: number;
  /** Valves of the whole engine. */
  readonly valves: number;
  /** Greatest valve lift. */
  readonly valveLift: number;
  /** Coolant pump, oil pump and unloaded alternator driven by the engine. */
  readonly accessories: boolean;
  /** Speed of these over what the same crankshaft speed gives them on an engine rated up to 6000 rpm [-]. */
  readonly driveRatio: number;
  /** Mean intake pressure over ambient pressure [-]; one at full throttle. */
  readonly intakePressureRatio: number;
  /** Oil viscosity over that of warm 10W-30 [-]; friction goes with its root. One when warm. */
  readonly oilViscosityRatio: number;
}

/** Friction mean effective pressures [Pa], all positive. */
export interface FrictionBreakdown {
  /** Crank seals, main bearings, oil churned. */
  readonly crank: number;
  /** Pistons, rings without gas load, rod bearings. */
  readonly reciprocating: number;
  /** Rings pressed outward by gas. */
  readonly gas: number;
  readonly valvetrain: number;
  /** Zero where the accessories are not driven. */
  readonly accessories: number;
  readonly total: number;
}

/** Constants of one kind of valvetrain: cam against follower (sliding, rolling), oscillating hydrodynamic, oscillating mixed. */
interface ValvetrainConstants {
  /** [kPa mm] */
  readonly flat: number;
  /** [kPa mm min] */
  readonly roller: number;
  /** [kPa mm^0.5 min^0.5] */
  readonly hydrodynamic: number;
  /** [kPa] */
  readonly mixed: number;
}

/** Sources with the formula below; sliding and rolling constants are the 2003 ones, two thirds of those of 1989 (low confidence). */
const VALVETRAIN: Readonly<Record<Valvetrain, ValvetrainConstants>> = {
  'flat-tappet': { flat: 267, roller: 0, hydrodynamic: 0.5, mixed: 32.1 },
  'roller-lifter': { flat: 0, roller: 0.0101, hydrodynamic: 0.5, mixed: 32.1 },
  'direct-acting': { flat: 133, roller: 0, hydrodynamic: 0.5, mixed: 10.7 },
  // A finger with a roller, as made since the 1990s; a sliding one rubs more.
  'finger-follower': { flat: 0, roller: 0.0151, hydrodynamic: 0.2, mixed: 42.8 },
  'rocker-arm': { flat: 267, roller: 0, hydrodynamic: 0.5, mixed: 21.4 },
};

/**
 * Constant of a camshaft bearing [kPa mm^3 min], and the bore of engines it is right for [mm].
 *
 * The formula has no size of these bearings: with the constant of those of the crank, 3.03e-4, it is that of one of 30 mm by 30 mm. So they are in fours of 86 mm bore, or near
 * it; 23 by 18 mm in motorcycles of 65 mm, 47 by 19 mm in eights of 102 mm (all from memory): diameter to the third times length goes with the fourth power of the bore.
 */
const CAM_BEARING = 244;
const CAM_BEARING_BORE = 86;

/**
 * Friction mean effective pressure by component [Pa]; pumping is not part of it.
 *
 * Source: Patton, Nitschke and Heywood, SAE 890836 (1989), updated by Sandoval and Heywood, SAE 2003-01-0725 (2003);
 * constants from memory, moderate confidence. Fitted to production engines of 1980 to 2000, to about 6000 rpm and 20 m/s
 * of piston speed, warm. Valve springs enter by lift alone, so a race spring is not seen: calibrate by a multiplier.
 *
 * @param speed - crankshaft speed [1/s], positive
 * @throws {@link DomainError} naming the first argument out of range
 */
export function friction(input: FrictionInput, speed: number): FrictionBreakdown {
  checkInput(input);
  if (!(speed > 0 && speed < 1000)) throw new DomainError('speed', speed, 'positive 1/s, below 1000');
  // The published formulas are in mm, rpm and kPa.
  const N = 60 * speed;
  const B = 1e3 * input.bore;
  const S = 1e3 * input.stroke;
  const n = input.cylinders;
  const Sp = 2 * input.stroke * speed;
  const oil = Math.sqrt(input.oilViscosityRatio);
  const perVolume = 1 / (B * B * S * n);
  const boundary = 1 + 500 / N;

  const main = 1e3 * input.mainDiameter;
  const crank =
    1.22e5 * main * perVolume +
    3.03e-4 * oil * N * main ** 3 * (1e3 * input.mainLength) * input.mainBearings * perVolume +
    (1.35e-10 * main * main * N * N * input.mainBearings) / n;

  const rod = 1e3 * input.rodDiameter;
  const reciprocating =
    (294 * oil * Sp) / B +
    (4.06e4 * boundary) / (B * B) +
    3.03e-4 * oil * N * rod ** 3 * (1e3 * input.rodLength) * n * perVolume;

  const r = input.compressionRatio;
  const gas = 6.89 * input.intakePressureRatio * (0.088 * oil * r + 0.182 * r ** (1.33 - 0.0238 * Sp));

  const c = VALVETRAIN[input.valvetrain];
  const lift = 1e3 * input.valveLift;
  const perStroke = input.valves / (S * n);
  const camBearings = CAM_BEARING * (B / CAM_BEARING_BORE) ** 4;
  const valvetrain =
    camBearings * oil * N * input.camBearings * perVolume +
    4.12 +
    (c.flat * boundary + c.roller * N + c.mixed * boundary * lift) * perStroke +
    ((c.hydrodynamic * oil * lift ** 1.5 * Math.sqrt(N)) / B) * perStroke;

  // What they take of the crankshaft's torque goes with the ratio, too.
  const driven = input.driveRatio * N;
  const accessories = input.accessories
    ? input.driveRatio * (8.32 + 1.86e-3 * driven + 7.45e-7 * driven * driven)
    : 0;

  return {
    crank: 1e3 * crank,
    reciprocating: 1e3 * reciprocating,
    gas: 1e3 * gas,
    valvetrain: 1e3 * valvetrain,
    accessories: 1e3 * accessories,
    total: 1e3 * (crank + reciprocating + gas + valvetrain + accessories),
  };
}

/** Sizes of plain bearings [m]. */
export interface BearingSizes {
  readonly mainDiameter: number;
  readonly mainLength: number;
  readonly rodDiameter: number;
  readonly rodLength: number;
}

/**
 * Stroke over bore below which journals go with the stroke [-]: they overlap by a quarter of it then, and a crank of that stroke is stiff without more.
 * Flat fours and sixes of 92 to 95 mm by 67 to 74 mm have mains of 0.80 to 0.82 strokes, motorcycle fours of 67 to 80 mm by 42 to 55 mm 0.66 to 0.75 (from memory).
 */
const SHORT_STROKE = 0.62 / 0.8;

/**
 * Bearing sizes of a production engine [m]: mains 0.62 by 0.21 bores, rods 0.53 by 0.20 bores; diameters of a stroke below 0.775 bores go with the stroke.
 *
 * Proportions seen in gasoline engines of 80 to 115 mm bore, from memory, within 10 %: race cranks run smaller.
 */
export function bearingSizes(bore: number, stroke: number): BearingSizes {
  if (!(bore > 0)) throw new DomainError('bore', bore, 'positive m');
  if (!(stroke > 0)) throw new DomainError('stroke', stroke, 'positive m');
  const size = Math.min(bore, stroke / SHORT_STROKE);
  return {
    mainDiameter: 0.62 * size,
    mainLength: 0.21 * bore,
    rodDiameter: 0.53 * size,
    rodLength: 0.2 * bore,
  };
}

function checkInput(input: FrictionInput): void {
  const positive = [
    'bore',
    'stroke',
    'cylinders',
    'mainBearings',
    'mainDiameter',
    'mainLength',
    'rodDiameter',
    'rodLength',
    'camBearings',
    'valves',
    'valveLift',
    'driveRatio',
    'intakePressureRatio',
    'oilViscosityRatio',
  ] as const;
  for (const name of positive) {
    if (!(input[name] > 0)) throw new DomainError(name, input[name], 'positive');
  }
  if (!(input.compressionRatio > 1)) {
    throw new DomainError('compressionRatio', input.compressionRatio, 'above 1');
  }
}
