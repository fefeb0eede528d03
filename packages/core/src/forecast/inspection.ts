/** What the sheets of a combination come to before anything is simulated: the figures a builder works out by hand. */
import { CUBIC_FOOT_A_MINUTE, INCH } from '../base/constants.ts';
import type { Assumed, Combination, Warning } from '../combination/combination.ts';
import { needsCombination } from '../combination/needsCombination.ts';
import { trappedCompressionRatio } from '../geometry/compression.ts';
import { flowFromArea, USUAL_DEPRESSION } from '../geometry/flowSheet.ts';
import { cylinderVolume, type SliderCrank, sliderCrank, sweptVolume } from '../geometry/sliderCrank.ts';
import { type ChamberShape, peakSquishVelocity } from '../geometry/squish.ts';
import type { PlugPlace } from '../processes/chamberBurn.ts';
import { type CamSideFigures, camSideFigures, type EventFigures, overlapDeg } from './camFigures.ts';
import { octaneCaution } from './octaneCaution.ts';
import { type RuleFacts, type RuleOfThumb, rulesOfThumb } from './rulesOfThumb.ts';
import {
  type ChosenBand,
  chooseBand,
  inductionRating,
  type SpeedFigures,
  speedFigures,
} from './speedFigures.ts';

/** Plain values with their unit in the key; shares and ratios without. */
export interface Inspection {
  /** Name of the combination. */
  readonly combination: string;
  /** Cylinders and crank train. */
  readonly block: {
    readonly cylinders: number;
    readonly boreMm: number;
    readonly strokeMm: number;
    readonly rodOverStroke: number;
    readonly displacementCm3: number;
  };
  /** The ratio, and what is left of it when the intake valve closes. */
  readonly compression: {
    readonly ratio: number;
    readonly clearanceVolumeCm3: number;
    readonly trapped: readonly TrappedRatio[];
  };
  /** Form of the chamber, and how the charge is squeezed out of its narrow part. */
  readonly chamber: {
    readonly shape: ChamberShape;
    readonly plug: PlugPlace;
    /** Of the area of the bore. */
    readonly squishArea: number;
    readonly squishHeightMm: number;
    /** Over mean piston speed, at its peak before top centre. */
    readonly squishVelocity: number;
  };
  /** What the cam card comes to. */
  readonly cam: {
    /** Cam degrees. */
    readonly separationDeg: number;
    /** Crank degrees. */
    readonly advanceDeg: number;
    readonly overlap050Deg: number | null;
    readonly overlapSeatDeg: number | null;
    readonly intake: CamSideFigures;
    readonly exhaust: CamSideFigures;
  };
  /** What ports and metering pass. */
  readonly flow: {
    /** One cylinder at the highest valve lift, 28 inH2O. */
    readonly intakeCfm28: number;
    readonly exhaustCfm28: number;
    readonly exhaustOverIntake: number;
    /** All ports of this side of one cylinder. */
    readonly intakePortMm2: number;
    readonly exhaustPortMm2: number;
    readonly inductionKind: 'carburetor' | 'throttle';
    /** Carburetors or throttles. */
    readonly inductionCount: number;
    /** Whole engine at 1.5 inHg: all of them together. */
    readonly inductionCfm15: number;
  };
  /** Figures by speed over the band. */
  readonly speeds: readonly SpeedFigures[];
  /** Speeds that the engine is likely to be run over. */
  readonly band: ChosenBand;
  /** Rules of the trade beside the figures of this engine. */
  readonly rules: readonly RuleOfThumb[];
  /** What the file left out. */
  readonly assumed: readonly Assumed[];
  /** What to know before the figures are trusted. */
  readonly warnings: readonly Warning[];
}

/** Compression from the closing of the intake valve, which means nothing without the height "closed" is read at. */
export interface TrappedRatio {
  /** Where "closed" is read, in words. */
  readonly height: string;
  /** Closing of the intake valve after bottom centre [crank deg]. */
  readonly closesDegAbdc: number;
  /** Volume at that closing over clearance volume [-]. */
  readonly ratio: number;
}

/**
 * The hand figures of a combination, the ledger of what it assumes, and the trade's rules beside them.
 *
 * @example
 * ```ts
 * const { compression, band } = inspectCombination(combination);
 * console.log(compression.ratio, band.fromRpm, band.toRpm);
 * ```
 */
export function inspectCombination(combination: Combination): Inspection {
  needsCombination(combination);
  const { block, chamber } = combination;
  const crank = sliderCrank(block.bore, block.stroke, block.rodLength, chamber.clearanceVolume);
  const intake = camSideFigures(combination.intake, 'intake', combination.friction.valvetrain);
  const exhaust = camSideFigures(combination.exhaust, 'exhaust', combination.friction.valvetrain);
  const meanArea = intake.meanAreaMm2 * 1e-6;
  const band = chooseBand(combination, meanArea);
  const count = Math.round((band.toRpm - band.fromRpm) / band.stepRpm) + 1;
  const displacement = sweptVolume(crank) * block.cylinders;
  const flow = flowFigures(combination, intake, exhaust);
  const rules = rulesOfThumb(ruleFacts(combination, displacement, flow, band.toRpm));
  return {
    combination: combination.name,
    block: {
      cylinders: block.cylinders,
      boreMm: block.bore * 1000,
      strokeMm: block.stroke * 1000,
      rodOverStroke: block.rodLength / block.stroke,
      displacementCm3: displacement * 1e6,
    },
    compression: {
      ratio: chamber.compressionRatio,
      clearanceVolumeCm3: chamber.clearanceVolume * 1e6,
      trapped: [
        ...trappedRatio(crank, '0.006 in of valve lift', intake.atSeat),
        ...trappedRatio(crank, '0.050 in of lobe lift', intake.at050),
      ],
    },
    chamber: {
      shape: chamber.shape,
      plug: chamber.plug,
      squishArea: chamber.squishArea,
      squishHeightMm: chamber.squishHeight * 1000,
      squishVelocity: peakSquishVelocity(crank, chamber),
    },
    cam: {
      separationDeg: (combination.intake.centreline + combination.exhaust.centreline) / 2,
      advanceDeg: (combination.exhaust.centreline - combination.intake.centreline) / 2,
      overlap050Deg: overlapDeg(intake.at050, exhaust.at050),
      overlapSeatDeg: overlapDeg(intake.atSeat, exhaust.atSeat),
      intake,
      exhaust,
    },
    flow,
    speeds: Array.from({ length: count }, (_, i) =>
      speedFigures(combination, meanArea, band.fromRpm + i * band.stepRpm),
    ),
    band,
    rules,
    assumed: combination.assumed,
    warnings: [...combination.warnings, ...octaneCaution(combination, rules)],
  };
}

/** What ports and metering pass. */
function flowFigures(
  combination: Combination,
  intake: CamSideFigures,
  exhaust: CamSideFigures,
): Inspection['flow'] {
  const cfm28 = ({ peakAreaMm2 }: CamSideFigures): number =>
    flowFromArea(peakAreaMm2 * 1e-6, USUAL_DEPRESSION) / CUBIC_FOOT_A_MINUTE;
  return {
    intakeCfm28: cfm28(intake),
    exhaustCfm28: cfm28(exhaust),
    exhaustOverIntake: cfm28(exhaust) / cfm28(intake),
    intakePortMm2: combination.intake.portArea * 1e6,
    exhaustPortMm2: combination.exhaust.portArea * 1e6,
    inductionKind: combination.induction.kind,
    inductionCount: combination.induction.count,
    inductionCfm15: inductionRating(combination) / CUBIC_FOOT_A_MINUTE,
  };
}

/** What the rules of thumb are worked from: displacement [m3] and the band's last speed [1/min], with the flow worked out before. */
function ruleFacts(
  combination: Combination,
  displacement: number,
  flow: Inspection['flow'],
  topRpm: number,
): RuleFacts {
  const { block, chamber } = combination;
  const { collectors, primary } = combination.exhaustSystem;
  return {
    cylinders: block.cylinders,
    cubicInches: displacement / INCH ** 3,
    strokeIn: block.stroke / INCH,
    compressionRatio: chamber.compressionRatio,
    chamber,
    intakeCfm: flow.intakeCfm28,
    exhaustOverIntake: flow.exhaustOverIntake,
    portIn2: combination.intake.portArea / INCH ** 2,
    primaryIn2: primary.area / INCH ** 2,
    collector:
      collectors === null
        ? null
        : { ratio: Math.sqrt(collectors.area / primary.area), primaries: collectors.groups[0].length },
    ratingCfm: flow.inductionCfm15,
    researchOctane: combination.fuel.researchOctane,
    lambda: combination.lambda,
    topRpm,
  };
}

/** One entry, or none where the valve never rises to the height. */
function trappedRatio(crank: SliderCrank, height: string, events: EventFigures | null): TrappedRatio[] {
  if (events === null) return [];
  const volume = cylinderVolume(crank, ((events.closesDeg + 180) * Math.PI) / 180);
  return [
    {
      height,
      closesDegAbdc: events.closesDeg,
      ratio: trappedCompressionRatio(volume, crank.clearanceVolume),
    },
  ];
}
