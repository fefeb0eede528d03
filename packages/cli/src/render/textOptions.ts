/** How a result is told to people. */
import type { Detail } from './detail.ts';
import type { Paint } from './paint.ts';
import type { UnitSystem } from './units.ts';

export interface TextOptions {
  /** Characters across. */
  readonly width: number;
  readonly units: UnitSystem;
  readonly paint: Paint;
  readonly detail: Detail;
}
