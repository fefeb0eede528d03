/** What would settle an unknown: a rule or a bench, or a pull that the forecast is fitted to. */
import { inherited } from '../reading/fields/fieldTable.ts';

/** `measuring`: a builder can measure it. `pull`: a figure of the model, which only a dyno sheet of the engine tells. */
export type SettledBy = 'measuring' | 'pull';

/** @param path - field of the file */
export function settledBy(path: string): SettledBy {
  return inherited(path, 'settledBy') ?? 'measuring';
}
