/** A complete engine specification in SI: what the file said, with every gap filled and listed. */

import type { Fuel } from '../gas/fuel.ts';
import type { ChamberShape } from '../geometry/squish.ts';
import type { PlugPlace } from '../processes/chamberBurn.ts';
import type { Calibration } from './calibration.ts';
import type { Burn, CorrectionStandard, Friction, Walls, Weather } from './running.ts';
import type { Stacks } from './stacks.ts';

export type { Fuel, Stacks };

/** One complete engine specification. All values SI (m, m2, m3, kg, Pa, K, rad where not said otherwise). */
export interface Combination {
  /** Name it goes by in every result. */
  readonly name: string;
  /** Cylinders and crank train. */
  readonly block: Block;
  /** Volume and form of the combustion chamber. */
  readonly chamber: Chamber;
  /** Intake side of one cylinder. */
  readonly intake: Port;
  /** Exhaust side of one cylinder. */
  readonly exhaust: Port;
  /** Where its flow sheets were made; absent: there are none. Moves no forecast: it says whether two sheets share a bench. */
  readonly bench?: Bench;
  /** Each side has camshafts of its own, so that either centreline moves without the other; absent: one shaft carries both. */
  readonly ownCamshafts?: true;
  /** From the outside air to the head. */
  readonly induction: Induction;
  /** From the head to the outside air. */
  readonly exhaustSystem: ExhaustSystem;
  /** What it burns. */
  readonly fuel: Fuel;
  /** Relative air-fuel ratio, 1 = stoichiometric [-]. */
  readonly lambda: number;
  /** What each cylinder's own has beyond `lambda`, in the order of their numbers [-]; absent: all alike. */
  readonly lambdaDifferences?: readonly number[];
  /** Standard deviation of the mixture between cylinders that one carburetor of usual drops feeds [-]; absent: nothing is dealt out. */
  readonly mixtureScatter?: number;
  /** What goes with engine speed, where the field it stands for holds the value in the middle; absent: nothing does. */
  readonly bySpeed?: {
    /** Relative air-fuel ratio [-]. */
    readonly lambda?: BySpeed;
    /** As {@link Port.centreline} [crank deg]. */
    readonly intakeCentreline?: BySpeed;
    /** As {@link Port.centreline} [crank deg]. */
    readonly exhaustCentreline?: BySpeed;
  };
  /** How combustion is timed and how long it lasts. */
  readonly burn: Burn;
  /** How the cylinder loses heat. */
  readonly walls: Walls;
  /** What rubs and what is driven. */
  readonly friction: Friction;
  /** Air of the day. */
  readonly weather: Weather;
  /** Standard whose reference air the shown torque and power refer to. */
  readonly correction: CorrectionStandard;
  /** Rise of its speed in pulls whose sheet says nothing of it [1/min/s], below 0 where it falls; absent: not known. Moves no forecast. */
  readonly pullRate?: number;
  /** Units that its results are shown in to people. */
  readonly units: UnitSystem;
  /** What an answer must keep to be recommended; moves no forecast. */
  readonly limits: Limits;
  /** Speed its power is meant to be made at [1/min]; null where the file has none. What is sized by it stands in the parts. */
  readonly ratedSpeed: number | null;
  /** How the knobs were fitted to dyno sheets; null where they never were. */
  readonly calibration: Calibration | null;
  /** The engine that {@link Burn.heard} was heard of, where this one came from it by changes; absent: this one. */
  readonly heardOn?: Combination;
  /** Values the file left out, with what was put in their place. */
  readonly assumed: readonly Assumed[];
  /** Doubts about the file that don't stop a forecast. */
  readonly warnings: readonly Warning[];
}

/** A value by engine speed: straight lines between, the ends held beyond. */
export interface BySpeed {
  /** [1/min], rising. */
  readonly rpm: readonly number[];
  /** As many, in the unit of the field. */
  readonly value: readonly number[];
}

/** A value the file left out and an estimate filled in. */
export interface Assumed {
  /** Path of the field in the file, dots between the names: `heads.intake.portArea`. */
  readonly path: string;
  /** The value, in `unit`. */
  readonly value: number | string;
  /** Unit as shown to people (`in`, `cc`, `deg`); empty for a pure number or a word. */
  readonly unit: string;
  /** One standard deviation of the estimate in the same unit; null where a spread makes no sense (a word). */
  readonly spread: number | null;
  /** Why this value: the rule used and where it comes from. */
  readonly reason: string;
}

/** `trade`: in, lb-ft and hp. `si`: mm, N m and kW. */
export type UnitSystem = 'trade' | 'si';

/** What its builder will not go beyond; null where nothing is stated. */
export interface Limits {
  /** Octane numbers, (R + M) / 2, of the fuel beyond what best timing asks for; below 0: so many may be given back in spark. */
  readonly octaneMargin: number | null;
  /** Highest mean piston speed [m/s]. */
  readonly pistonSpeed: number | null;
  /** Largest valve lift, lash taken off [m]. */
  readonly valveLift: number | null;
  /** Highest engine speed [1/min]. */
  readonly redline: number | null;
}

/** A doubt or a caution. `code` is stable for machines, `message` is for people. */
export interface Warning {
  /** Stable, for machines. */
  readonly code: string;
  /** Path of the field in the file, or empty. */
  readonly path: string;
  /** What is doubtful, for people. */
  readonly message: string;
}

/** Cylinders and crank train. */
export interface Block {
  /** How many there are. */
  readonly cylinders: number;
  /** [m] */
  readonly bore: number;
  /** [m] */
  readonly stroke: number;
  /** Centre to centre [m]. */
  readonly rodLength: number;
  /** Cylinder numbers (from 1) in the order they fire. */
  readonly firingOrder: readonly number[];
  /** Crank angle of each cylinder's firing top centre [deg], 0 to 720, indexed by cylinder number - 1. */
  readonly firingAngles: readonly number[];
  /**
   * Moment of inertia of all that turns faster in a pull, the brake's rotor included [kg m2]; absent: neither stated nor asked for. Moves no
   * forecast.
   */
  readonly inertia?: number;
}

/** Volume and form of the combustion chamber. */
export interface Chamber {
  /** Form of the chamber. */
  readonly shape: ChamberShape;
  /** Where the plug stands. */
  readonly plug: PlugPlace;
  /** Area over which piston and head come close, over the area of the bore [-]. */
  readonly squishArea: number;
  /** Piston to head there at top centre [m]. */
  readonly squishHeight: number;
  /** Volume above the piston at top centre, one cylinder [m3]. */
  readonly clearanceVolume: number;
  /** (swept + clearance) / clearance [-]. */
  readonly compressionRatio: number;
  /** Volume above the piston of each cylinder, in the order of their numbers [m3]; absent: all as `clearanceVolume`. */
  readonly clearances?: readonly number[];
}

/** One side (intake or exhaust) of one cylinder: valves, flow, port, cam. */
export interface Port {
  /** Valves of this side per cylinder. */
  readonly valves: number;
  /** Head diameter of one valve [m]. */
  readonly valveDiameter: number;
  /** [m] */
  readonly stemDiameter: number;
  /** What the valves pass, by lift. */
  readonly flow: FlowCurve;
  /** Length from the manifold face to the valve [m]. */
  readonly portLength: number;
  /** Mean cross-section of the port, all of the cylinder's ports of this side together [m2]. */
  readonly portArea: number;
  /** Lift of the cam by its angle. */
  readonly lobe: Lobe;
  /** Angle of the lobe's centre [crank deg]: after gas-exchange top centre for intake, before it for exhaust. */
  readonly centreline: number;
  /** Valve lift over lobe lift [-]. */
  readonly rockerRatio: number;
  /** Clearance at the valve, hot [m]. */
  readonly lash: number;
  /** Lift lost to bending at full lift [m]; in proportion below. */
  readonly deflection: number;
}

/** What a flow sheet says of the bench it was made on. */
export interface Bench {
  /** As the file calls it; null where it does not. */
  readonly name: string | null;
  /** Test depression [Pa]. */
  readonly depression: number;
}

/** Effective flow area against lift, all of the cylinder's valves of this side together. */
export interface FlowCurve {
  /** Valve lift [m], rising, first entry above 0. */
  readonly lift: readonly number[];
  /** Effective area of the compressible nozzle law, stagnation upstream to static downstream [m2]. */
  readonly area: readonly number[];
  /** Area against the usual direction over area in it [-]. */
  readonly reverseRatio: number;
  /** Flow of each cylinder's port over this, in the order of their numbers [-]; absent: all alike. */
  readonly shares?: readonly number[];
  /** Lift of the last measured point [m]: above it the area is held and the forecast warns. Null: no sheet. */
  readonly measuredTo: number | null;
}

/** Shape of a cam lobe: what the card says, or a measured table. */
export type Lobe =
  | {
      readonly kind: 'card';
      /** Points of the card, longest duration first: crank degrees during which the lobe is above `lift` [m]. */
      readonly points: readonly { readonly duration: number; readonly lift: number }[];
      /** Lobe lift at the nose [m]. */
      readonly maxLift: number;
    }
  | {
      readonly kind: 'table';
      /** Crank degrees from the centre of the lobe, rising. */
      readonly angle: readonly number[];
      /** Lobe lift [m]. */
      readonly lift: readonly number[];
    };

/** From the outside air to the head: metering, plenum, runners. */
export interface Induction {
  /** What meters the air. */
  readonly kind: 'carburetor' | 'throttle';
  /** How many of them: carburetors, or throttles. */
  readonly count: number;
  /** Air flow area of carburetor or throttle body, whole engine, compressible nozzle law [m2]. */
  readonly meteringArea: number;
  /** Narrowest place of the carburetors; absent: the metering area's jet is lost whole, as behind a throttle. */
  readonly venturi?: {
    /** Effective area of all venturis over the metering area [-]. */
    readonly overMetering: number;
    /** Of the drop from still air to the venturi, the share that is lost behind it [-]. */
    readonly lost: number;
  };
  /** Bores in series with carburetor or throttle; absent: none. */
  readonly restrictor?: {
    /** Effective, whole engine [m2]. */
    readonly area: number;
    /** Of the drop from still gas to its throat, the share that is lost behind it [-]. */
    readonly lost: number;
    /** On which side of carburetor or throttle it stands. */
    readonly place: 'front' | 'behind';
  };
  /** Pipes from carburetor or throttle to the plenum: an inlet duct, or the holes of a spacer; absent: none. */
  readonly feed?: {
    /** As waves see it [m]. */
    readonly length: number;
    /** Of all of them, whole engine [m2]. */
    readonly area: number;
    /** Pipes side by side to one plenum: their walls rub more than one of their area [-]. */
    readonly bores: number;
    /** Dynamic pressures lost in them [-]. */
    readonly loss: number;
  };
  /** What fills the barrels of carburetors over a plenum and swings in them, whole engine; absent: nothing has weight there. */
  readonly barrels?: {
    /** As waves see it, at the area below: longer for the narrow venturi, and beyond both ends [m]. */
    readonly length: number;
    /** Of all throttle bores [m2]. */
    readonly area: number;
  };
  /** An open spacer's way into the plenum, whole engine: effective area [m2]; its volume counts as the plenum's. Absent: none. */
  readonly spacerArea?: number;
  /** Effective area of the opening between two plenums [m2]; absent: a whole wall. */
  readonly dividerArea?: number;
  /** Tubes between runners; absent: none. */
  readonly balance?: {
    /** From the face of the head back to where they join [m]. */
    readonly at: number;
    readonly length: number;
    /** Of one tube [m2]. */
    readonly area: number;
    /** Cylinders (numbers from 1) whose runners a tube joins, two and two. */
    readonly pairs: readonly (readonly number[])[];
  };
  /** Effective area of the air cleaner, whole engine [m2]; null for none. */
  readonly airCleanerArea: number | null;
  /** A throttle or carburetor in each cylinder's own runner, still air or an airbox in front; absent: all meter into the plenums. */
  readonly stacks?: Stacks;
  /**
   * Plenums, each with its volume [m3] and the cylinders (numbers from 1) it feeds; metering area is shared by count. None in front of
   * `stacks` that stand in the open.
   */
  readonly plenums: readonly { readonly volume: number; readonly cylinders: readonly number[] }[];
  /** From plenum to head, one cylinder. */
  readonly runner: {
    /** Plenum to head face [m]; the port follows. */
    readonly length: number;
    /** Length that waves see over the length measured, runner and port [-]. */
    readonly lengthMultiplier: number;
    /** Area at the plenum end, one cylinder [m2]. */
    readonly entryArea: number;
    /** Area at the head face, one cylinder [m2]. */
    readonly exitArea: number;
    /** Effective area of the runner's mouth, one cylinder [m2]: carries the manifold's measured flow loss. */
    readonly mouthArea: number;
    /** Wall temperature of runner and port [K]. */
    readonly wallTemperature: number;
    /** Friction of the walls of runner and port over that of usual castings, above 0 [-]; absent: 1. */
    readonly wallFriction?: number;
  };
  /** Where the fuel comes in. */
  readonly injection: 'carburetor' | 'port' | 'direct';
  /** Of all venturis, whole engine [m2]: their air makes drops finer or coarser than usual; absent: drops are usual at every speed. */
  readonly venturiArea?: number;
  /** Share of the fuel's latent heat that is taken from the air before the valve [-]; behind venturis of drops of the usual size. */
  readonly evaporation: number;
  /** Share of the fuel that is vapour when it passes the valve [-]: by the air's heat, and by that of walls; of such drops too. */
  readonly vapour: number;
  /** Temperature rise of the charge from the plenum floor and walls on a day of 60 F, before evaporation [K]. */
  readonly heating: number;
}

/** From the head to the outside air: primaries, collectors, outlet. */
export interface ExhaustSystem {
  /** From head to merge, one cylinder. */
  readonly primary: {
    /** Flange to merge [m]. */
    readonly length: number;
    /** Area, one cylinder [m2]. */
    readonly area: number;
    readonly wallTemperature: number;
    /** Bends of the tube, all together [deg]; absent: none. */
    readonly bends?: number;
    /** Friction of the walls of port and primary, bends too, over that of usual tubes, above 0 [-]; absent: 1. */
    readonly wallFriction?: number;
    /** Length of each cylinder's own, in the order of their numbers [m]; absent: all as `length`. */
    readonly lengths?: readonly number[];
    /** Areas from so far behind the flange on [m], [m2], in rising order; absent: one area. */
    readonly steps?: readonly { readonly after: number; readonly area: number }[];
  };
  /** A first merge of some primaries each and the pipe from there to the collector; absent: the primaries meet in the collector. */
  readonly secondary?: {
    /** Each first merge's cylinder numbers (from 1), all of one collector. */
    readonly groups: readonly (readonly number[])[];
    /** Volume of a first merge [m3]. */
    readonly mergeVolume: number;
    /** First merge to collector [m]. */
    readonly length: number;
    /** [m2] */
    readonly area: number;
    readonly wallTemperature: number;
  };
  /** Cylinders that share a collector; null: open primaries. */
  readonly collectors: {
    /** Each collector's cylinder numbers (from 1). */
    readonly groups: readonly (readonly number[])[];
    /** Volume of the merge, one collector [m3]. */
    readonly mergeVolume: number;
    /** [m] */
    readonly length: number;
    /** [m2] */
    readonly area: number;
    readonly wallTemperature: number;
    /** As of the primary [-]; absent: 1. */
    readonly wallFriction?: number;
    /** Area at its end, where it widens or narrows on its way [m2]; absent: as at its merge. */
    readonly exitArea?: number;
  } | null;
  /** A tube between the two collectors; absent: none. */
  readonly balance?: {
    /** Behind the merges [m]. */
    readonly at: number;
    readonly length: number;
    /** [m2] */
    readonly area: number;
    readonly wallTemperature: number;
  };
  /** The box at the end of each collector, or each open primary; absent: none. */
  readonly muffler?: MufflerBox;
  /** Effective area of what ends in the open: collector, tail-pipe of a muffler, or primary where neither is [m2]. */
  readonly outletArea: number;
  /** Share of what flows back in at the outlet that is exhaust that just left [-]; the rest is outside air. */
  readonly returned: number;
}

/** A muffler as a volume with the pipe in and the pipe out. */
export interface MufflerBox {
  /**
   * `chambered`: the pipe opens into the box and another leads out. `straight-through`: a pipe with holes in its wall leads through
   * the box, which the gas around it fills.
   */
  readonly kind: 'chambered' | 'straight-through';
  /** Gas in the box, what is packed into it taken off [m3]. */
  readonly volume: number;
  /** Effective area of the way out of the box, or of the way through the pipe: sets the loss with the rest [m2]. */
  readonly passage: number;
  /** Tail-pipe of a box with chambers; pipe with holes in it of a straight one. */
  readonly pipe: { readonly length: number; readonly area: number; readonly wallTemperature: number };
}
