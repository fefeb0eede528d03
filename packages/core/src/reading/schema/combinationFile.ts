/** The whole combination file: its sections in the order to write them. */
import * as z from 'zod/mini';
import type { UnitSystem } from '../../combination/combination.ts';
import type { CorrectionStandard } from '../../combination/running.ts';
import { type CalibrationSection, calibrationSection } from './calibrationSection.ts';
import { type CamSection, camSection, type ValvetrainSection, valvetrainSection } from './camSection.ts';
import { type ChamberSection, chamberSection } from './chamberSection.ts';
import { type EngineSection, engineSection } from './engineSection.ts';
import { type ExhaustSection, exhaustSection } from './exhaustSection.ts';
import { type HeadsSection, headsSection } from './headsSection.ts';
import { type InductionSection, inductionSection } from './inductionSection.ts';
import { type LimitsSection, limitsSection } from './limitsSection.ts';
import { quantity, text, word } from './quantity.ts';
import {
  type BurnSection,
  burnSection,
  CORRECTIONS,
  type FrictionSection,
  type FuelSection,
  frictionSection,
  fuelSection,
  type HeatSection,
  heatSection,
  type MixtureSection,
  mixtureSection,
  type WeatherSection,
  weatherSection,
} from './runningSections.ts';

/** An engine on a stand needs a second or more to rev up, and no dyno lets it go as it likes. */
const PULL_RATES = '-3000 rpm/s to 3000 rpm/s';

const UNIT_SYSTEMS = ['trade', 'si'] as const;

/** What a combination file says, in SI, before gaps are filled. */
export interface CombinationFile {
  readonly name?: string | undefined;
  readonly job?: string | undefined;
  readonly customer?: string | undefined;
  readonly notes?: string | undefined;
  readonly engine: EngineSection;
  readonly chamber?: ChamberSection | undefined;
  readonly heads?: HeadsSection | undefined;
  readonly cam?: CamSection | undefined;
  readonly valvetrain?: ValvetrainSection | undefined;
  readonly induction?: InductionSection | undefined;
  readonly exhaust?: ExhaustSection | undefined;
  readonly fuel?: string | FuelSection | undefined;
  readonly mixture?: MixtureSection | undefined;
  readonly burn?: BurnSection | undefined;
  readonly heat?: HeatSection | undefined;
  readonly friction?: FrictionSection | undefined;
  readonly weather?: WeatherSection | undefined;
  readonly correction?: CorrectionStandard | undefined;
  readonly pullRate?: number | undefined;
  readonly units?: UnitSystem | undefined;
  readonly limits?: LimitsSection | undefined;
  readonly calibration?: CalibrationSection | undefined;
}

/** A file with some sections missing because they could not be read; for checks that look at what there is. */
export type PartialFile = Partial<CombinationFile>;

/** `1238` without quotes is a number. */
const jobNumber: z.ZodMiniType<string, string | number> = z.pipe(
  z.union([z.string().check(z.minLength(1), z.maxLength(60)), z.int()]),
  z.transform(String),
);

/** Schema of every top-level field, in the order to write them. Only `engine` must be there. */
export const SECTIONS: { readonly [Name in keyof CombinationFile | '$schema']-?: z.ZodMiniType } = {
  $schema: text(400),
  name: text(120),
  job: jobNumber,
  customer: text(120),
  notes: text(4000),
  engine: engineSection,
  chamber: chamberSection,
  heads: headsSection,
  cam: camSection,
  valvetrain: valvetrainSection,
  induction: inductionSection,
  exhaust: exhaustSection,
  fuel: fuelSection,
  mixture: mixtureSection,
  burn: burnSection,
  heat: heatSection,
  friction: frictionSection,
  weather: weatherSection,
  correction: word(CORRECTIONS),
  pullRate: quantity('speed-rate', PULL_RATES),
  units: word(UNIT_SYSTEMS),
  limits: limitsSection,
  calibration: calibrationSection,
};
