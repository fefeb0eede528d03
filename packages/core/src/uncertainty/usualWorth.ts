/** Which unknowns are looked at one by one, where there is time for a few. */

/**
 * Fields and errors in the order of what they are usually worth in power over the band, from the examples with every unknown moved
 * alone. The order only chooses what is looked at singly; a slow test holds it against looking at all of them.
 */
const ORDER: readonly string[] = [
  'flow bench',
  'heads.intake.flowMultiplier',
  'heads.intake.valve',
  'cam.intake.at050',
  'intake duration',
  'friction.multiplier',
  'heat.multiplier',
  'induction.heating',
  'compression',
  'chamber.compression',
  'heads.exhaust.flowMultiplier',
  'induction.flowLoss',
  'burn.efficiency',
  'exhaust.collector.length',
  'induction.carburetor.rating',
  'carburetor rating',
  'induction.throttle.diameter',
  'throttle',
  'induction.evaporation',
  'cam.intake.lobeLift',
  'heads.exhaust.valve',
  'valvetrain.flex',
  'cam.exhaust.at050',
  'exhaust duration',
  'heads.intake.areaRatio',
  'induction.runner.length',
  'exhaust.primary.length',
  'cam.advance',
  'cam phase',
  'exhaust.returned',
  'burn.durationMultiplier',
  'exhaust.primary.inside',
  'back-pressure',
  'muffler rating',
  'air cleaner rating',
  'cam.intake.advertised',
  'heads.intake.reverseFlow',
  'exhaust.collector.inside',
  'chamber.squishArea',
  'fuel.octaneOffset',
  'mixture.lambda',
];

/** Rank of an unknown by its id; those that are not in the list come last. */
export function usualRank(id: string): number {
  const at = ORDER.indexOf(id);
  return at < 0 ? ORDER.length : at;
}
