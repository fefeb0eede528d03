/** The tracts of a combination's cylinder, as network and flow bench see them. */
import type { Combination, ExhaustSystem } from '../combination/combination.ts';
import type { Profile } from '../geometry/tractProfile.ts';
import {
  endCorrection,
  exhaustProfile,
  intakePortProfile,
  intakeProfile,
  OPEN_END,
} from '../geometry/tractProfile.ts';

/**
 * Pipe behind an exhaust port on the bench: a stub of 6 to 8 in, 4 of its diameters, a fifth wider than the port, as headers usually
 * are; common practice, no source. Not the primary itself: another header makes no other valve.
 */
const STUB = { diameters: 4, areaRatio: 1.2 } as const;

/** Runner and port, plenum to valve, as long as waves see them. */
export function intakeTract({ intake, induction }: Combination): Profile {
  const { runner } = induction;
  return intakeProfile({
    runnerLength: runner.length * runner.lengthMultiplier,
    portLength: intake.portLength * runner.lengthMultiplier,
    entryArea: runner.entryArea,
    exitArea: runner.exitArea,
    portArea: intake.portArea,
    ...(induction.stacks === undefined ? {} : { mouthEnd: OPEN_END }),
  });
}

/** The port alone, as the bare head stood on the bench. */
export function benchedIntake({ intake, induction }: Combination): Profile {
  const { runner } = induction;
  return intakePortProfile({
    portLength: intake.portLength * runner.lengthMultiplier,
    exitArea: runner.exitArea,
    portArea: intake.portArea,
  });
}

/** Length over which a primary takes on another size [m]: that of a cone. */
const STEP_LENGTH = 0.02;

/**
 * Port and primary of one cylinder, valve to merge or to the open.
 *
 * @param number - of the cylinder, from 1
 */
export function exhaustTract(combination: Combination, number = 1): Profile {
  const { exhaustSystem } = combination;
  const { collectors, primary } = exhaustSystem;
  const { steps = [], lengths, length } = primary;
  const end = steps.reduce((_, step) => step.area, primary.area);
  const beyond = collectors === null ? beyondEnd(exhaustSystem, end) : 0;
  const whole = (lengths?.[number - 1] ?? length) + beyond;
  const [valve, flange, tail] = portWithPipe(combination, whole);
  const stepped = steps.flatMap(({ after, area }, i) => [
    { x: flange.x + after, area: steps[i - 1]?.area ?? primary.area },
    { x: flange.x + after + STEP_LENGTH, area },
  ]);
  return [valve, flange, ...stepped, { x: tail.x, area: end }];
}

/** Length that waves see beyond the last pipe of an exhaust [m]: none where a muffler or a narrower outlet stands at its end. */
function beyondEnd({ muffler, outletArea }: ExhaustSystem, area: number): number {
  return muffler === undefined && outletArea >= area ? endCorrection(area, OPEN_END) : 0;
}

/** A collector from its merge on, straight or a cone; an open one is as long as waves see it. */
export function collectorTract(
  exhaustSystem: ExhaustSystem,
  { length, area, exitArea = area }: NonNullable<ExhaustSystem['collectors']>,
): Profile {
  const cone = coneProfile(length, area, exitArea);
  const beyond = beyondEnd(exhaustSystem, exitArea);
  return beyond > 0 ? [...cone, { x: length + beyond, area: exitArea }] : cone;
}

/** Stretches of a cone whose area is taken as linear between them. */
const CONE_STRETCHES = 8;

/** Areas along a cone: its diameter grows evenly. */
function coneProfile(length: number, area: number, exitArea: number): Profile {
  const count = area === exitArea ? 1 : CONE_STRETCHES;
  const [from, to] = [Math.sqrt(area), Math.sqrt(exitArea)];
  return Array.from({ length: count + 1 }, (_, i) => ({
    x: (i * length) / count,
    area: (from + ((to - from) * i) / count) ** 2,
  }));
}

/** A pipe of one length [m] and one area [m2]. */
export function straightPipe(length: number, area: number): Profile {
  return [
    { x: 0, area },
    { x: length, area },
  ];
}

/** A pipe that ends in the open, as long as waves see it. */
export function openPipe(length: number, area: number): Profile {
  return straightPipe(length + endCorrection(area, OPEN_END), area);
}

function portWithPipe({ exhaust, exhaustSystem }: Combination, pipeLength: number): Profile {
  return exhaustProfile({
    portLength: exhaust.portLength,
    pipeLength,
    portArea: exhaust.portArea,
    pipeArea: exhaustSystem.primary.area,
  });
}

/** Port with its stub, as the exhaust side stood on the bench. */
export function benchedExhaust({ exhaust: { portArea, portLength } }: Combination): Profile {
  const pipeArea = STUB.areaRatio * portArea;
  const pipeLength = STUB.diameters * Math.sqrt((4 * pipeArea) / Math.PI);
  return exhaustProfile({ portLength, pipeLength, portArea, pipeArea });
}
