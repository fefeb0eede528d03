/** What would settle an unknown: a rule or a bench, or a pull that the forecast is fitted to. */

/** `measuring`: a builder can measure it. `pull`: a figure of the model, which only a dyno sheet of the engine tells. */
export type SettledBy = 'measuring' | 'pull';

const OF_THE_MODEL: readonly RegExp[] = [
  /^heat\./,
  /^burn\./,
  /^friction\.multiplier$/,
  /^induction\.(evaporation|vapour|heating|runner\.lengthMultiplier)$/,
  /^exhaust\.returned$/,
  /\.(reverseFlow|wallTemperature|wallFriction)$/,
  /^fuel\.octaneOffset$/,
];

/** @param path - field of the file */
export function settledBy(path: string): SettledBy {
  return OF_THE_MODEL.some((pattern) => pattern.test(path)) ? 'pull' : 'measuring';
}
