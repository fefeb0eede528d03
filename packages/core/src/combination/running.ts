/** How an engine is run: burning, wall heat, friction and the air of the day. */
/** How combustion is timed and how long it lasts. */
export interface Burn {
  /** When half of the fuel is burned, or the spark comes; or how that is found. */
  readonly timing:
    | {
        readonly mode: 'ca50' /** Angle of 50 % burned after firing top centre [deg]. */;
        readonly angle: number;
      }
    | {
        readonly mode: 'spark';
        /** [rpm], rising */ readonly rpm: readonly number[];
        /** Spark before firing top centre [deg]. */ readonly advance: readonly number[];
      }
    | { readonly mode: 'best-torque' }
    | { readonly mode: 'knock-limited' };
  /** Multiplier on the duration the burn model computes [-]. */
  readonly durationMultiplier: number;
  /** Angle from 10 to 90 % burned [deg], in place of the burn model; null: the model. */
  readonly duration: number | null;
  /** Share of the fuel that burns of what chemistry allows [-]. */
  readonly efficiency: number;
  /** Octane numbers this engine asks for beside the model [-]. */
  readonly octaneOffset: number;
  /** What its owner heard of knock at full throttle. */
  readonly heard: readonly HeardKnock[];
}

/** What was heard at one speed and spark. */
export interface HeardKnock {
  /** [1/min]. */
  readonly rpm: number;
  /** Spark before firing top centre [deg]. */
  readonly advance: number;
  /** Octane of the fuel on the pump, (R + M) / 2; null: that of the combination's fuel. */
  readonly octane: number | null;
  /** `none`: no knock at all. `trace`: just audible. */
  readonly knock: 'none' | 'trace';
}

/** Wall heat of the cylinder: model and surface temperatures [K]. */
export interface Walls {
  /** Law of the heat transfer. */
  readonly model: 'woschni' | 'hohenberg' | 'annand';
  /** Wall heat over what the law gives [-]. */
  readonly multiplier: number;
  /** [K] */
  readonly head: number;
  /** Crown of the piston [K]. */
  readonly piston: number;
  /** Cylinder wall [K]. */
  readonly liner: number;
}

/** What rubs and what the engine drives. */
export interface Friction {
  /** What follows the cam, and what moves the valve. */
  readonly valvetrain: 'flat-tappet' | 'roller-lifter' | 'direct-acting' | 'finger-follower' | 'rocker-arm';
  /** Friction over what the model gives [-]. */
  readonly multiplier: number;
  /** Bearings of all camshafts together. */
  readonly camBearings: number;
  /** Water pump, oil pump and alternator driven by the engine. */
  readonly accessories: boolean;
  /** Their speed over what the same crankshaft speed gives them on an engine rated up to 6000 rpm [-]. */
  readonly driveRatio: number;
  /** Bearings of the crankshaft. */
  readonly mainBearings: number;
  /** [m] */
  readonly mainDiameter: number;
  /** Length of a main bearing [m]. */
  readonly mainLength: number;
  /** Diameter of a big-end bearing [m]. */
  readonly rodDiameter: number;
  /** Length of a big-end bearing [m]. */
  readonly rodLength: number;
}

/** Air of the day. */
export interface Weather {
  /** Absolute barometer reading, not dry [Pa]. */
  readonly pressure: number;
  /** [K] */
  readonly temperature: number;
  /** Partial pressure of water vapour [Pa]. */
  readonly vapourPressure: number;
}

/** `J607`: 60 F, 29.92 inHg dry. `J1349`: 77 F, 29.23 inHg dry. `none`: as observed. */
export type CorrectionStandard = 'J607' | 'J1349' | 'none';
