/** Which unknowns are looked at one by one, where there is time for a few. */
import type { ErrorName } from '../reading/fields/errorName.ts';
import type { FieldPath } from '../reading/schema/fieldPath.ts';

/**
 * Fields and errors in the order of what they are usually worth in power over the band, from the examples and a flat twin known by little, with every unknown moved
 * alone. The order only chooses what is looked at singly; a slow test holds it against looking at all of them.
 */
const ORDER: readonly string[] = [
  'flow bench',
  'heads.intake.flowMultiplier',
  'exhaust.box.backPressure',
  'friction.multiplier',
  'heat.multiplier',
  'heads.intake.valve',
  'cam.intake.at050',
  'intake duration',
  'induction.heating',
  'compression',
  'chamber.compression',
  'exhaust.primary.length',
  'exhaust.collector.length',
  'friction.mainDiameter',
  'induction.runner.lengthMultiplier',
  'burn.efficiency',
  'induction.flowLoss',
  'cam.intake.advertised',
  'induction.carburetor.rating',
  'carburetor rating',
  'induction.throttle.diameter',
  'throttle',
  'heads.exhaust.flowMultiplier',
  'burn.durationMultiplier',
  'exhaust.primary.wallTemperature',
  'induction.runner.wallTemperature',
  'cam.separation',
  'induction.evaporation',
  'induction.vapour',
  'heads.intake.reverseFlow',
  'cam.intake.lobeLift',
  'heads.exhaust.valve',
  'valvetrain.flex',
  'cam.exhaust.at050',
  'exhaust duration',
  'heads.intake.areaRatio',
  'induction.runner.length',
  'cam.advance',
  'cam phase',
  'exhaust.returned',
  'exhaust.primary.inside',
  'back-pressure',
  'muffler rating',
  'air cleaner rating',
  'exhaust.collector.inside',
  'chamber.squishArea',
  'burn.octaneOffset',
  'mixture.lambda',
] satisfies readonly (FieldPath | ErrorName)[];

/** Rank of an unknown by its id; those that are not in the list come last. */
export function usualRank(id: string): number {
  const at = ORDER.indexOf(id);
  return at < 0 ? ORDER.length : at;
}
