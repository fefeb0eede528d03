/** The tracts of a combination's cylinder, as network and flow bench see them. */
import type { Combination } from '../combination/combination.ts';
import type { Profile } from '../geometry/tractProfile.ts';
import {
  endCorrection,
  exhaustProfile,
  intakePortProfile,
  intakeProfile,
  OPEN_END,
} from '../geometry/tractProfile.ts';

/** Pipe behind an exhaust port on the bench, in diameters of the primary [-]: a stub of 6 to 8 in; common practice, no source. */
const STUB_DIAMETERS = 4;

/** Runner and port, plenum to valve, as long as waves see them. */
export function intakeTract({ intake, induction }: Combination): Profile {
  const { runner } = induction;
  return intakeProfile({
    runnerLength: runner.length * runner.lengthMultiplier,
    portLength: intake.portLength * runner.lengthMultiplier,
    entryArea: runner.entryArea,
    exitArea: runner.exitArea,
    portArea: intake.portArea,
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

/** Port and primary, valve to merge or to the open. */
export function exhaustTract(combination: Combination): Profile {
  const { collectors, primary, outletArea } = combination.exhaustSystem;
  const beyond = collectors === null ? openLength(primary.area, outletArea) : 0;
  return portWithPipe(combination, primary.length + beyond);
}

/** Collector, merge to outlet. */
export function collectorTract({ length, area }: CollectorPipe, outletArea: number): Profile {
  return [
    { x: 0, area },
    { x: length + openLength(area, outletArea), area },
  ];
}

type CollectorPipe = Pick<NonNullable<Combination['exhaustSystem']['collectors']>, 'length' | 'area'>;

/** What waves see of a pipe beyond its open end [m]; none where a muffler sits there. */
function openLength(area: number, outletArea: number): number {
  return outletArea < area ? 0 : endCorrection(area, OPEN_END);
}

function portWithPipe({ exhaust, exhaustSystem }: Combination, pipeLength: number): Profile {
  return exhaustProfile({
    portLength: exhaust.portLength,
    pipeLength,
    portArea: exhaust.portArea,
    pipeArea: exhaustSystem.primary.area,
  });
}

/** Port with a stub of the primary's size, as the exhaust side stood on the bench. */
export function benchedExhaust(combination: Combination): Profile {
  const { area } = combination.exhaustSystem.primary;
  return portWithPipe(combination, STUB_DIAMETERS * Math.sqrt((4 * area) / Math.PI));
}
