/** Section `induction`: from the air cleaner to the face of the head. */
import * as z from 'zod/mini';
import {
  type DividerSection,
  divider,
  type InletDuctSection,
  inletDuct,
  type OrNone,
  plenumGroups,
  type RestrictorSection,
  type RunnerBalanceSection,
  restrictor,
  runnerBalance,
  type SpacerSection,
  spacer,
} from './inductionParts.ts';
import { count, pure, quantity, word } from './quantity.ts';

/** Style of manifold. */
export const MANIFOLDS = [
  'single-plane',
  'dual-plane',
  'individual-runner',
  'individual-throttles',
  'long-runner',
] as const;

/** How the mouth of a runner is shaped that stands in the open or in an airbox. */
export const MOUTHS = ['bell', 'plain'] as const;
export type Manifold = (typeof MANIFOLDS)[number];

/** Where a throttle body's fuel is injected. */
export const INJECTIONS = ['port', 'direct'] as const;

/** What heats the floor of the plenum. */
export const MANIFOLD_HEATS = ['exhaust', 'coolant', 'none'] as const;
export type ManifoldHeat = (typeof MANIFOLD_HEATS)[number];

export interface CarburetorSection {
  readonly rating?: number | undefined;
  readonly barrels?: number | undefined;
  readonly ratedAt?: number | undefined;
  readonly count?: number | undefined;
  readonly venturi?: number | undefined;
  readonly height?: number | undefined;
}

export interface ThrottleSection {
  readonly diameter?: number | undefined;
  readonly count?: number | undefined;
}

export interface AirCleanerSection {
  readonly flow: number;
  readonly at?: number | undefined;
}

export interface RunnerSection {
  readonly length?: number | undefined;
  readonly lengthMultiplier?: number | undefined;
  readonly throttleAt?: number | undefined;
  readonly mouth?: (typeof MOUTHS)[number] | undefined;
  readonly entryArea?: number | undefined;
  readonly exitArea?: number | undefined;
  readonly wallTemperature?: number | undefined;
}

export interface AirboxSection {
  readonly volume: number;
  readonly inlet?: { readonly inside: number; readonly length?: number | undefined } | undefined;
}

export interface InductionSection {
  readonly carburetor?: CarburetorSection | undefined;
  readonly throttle?: ThrottleSection | undefined;
  readonly flowMultiplier?: number | undefined;
  readonly airCleaner?: 'none' | AirCleanerSection | undefined;
  readonly manifold?: Manifold | undefined;
  readonly restrictor?: OrNone<RestrictorSection> | undefined;
  readonly spacer?: OrNone<SpacerSection> | undefined;
  readonly inletDuct?: OrNone<InletDuctSection> | undefined;
  readonly plenum?: number | undefined;
  readonly groups?: number[][] | undefined;
  readonly divider?: OrNone<DividerSection> | undefined;
  readonly airbox?: AirboxSection | undefined;
  readonly runner?: RunnerSection | undefined;
  readonly balance?: OrNone<RunnerBalanceSection> | undefined;
  readonly flowLoss?: number | undefined;
  readonly injection?: (typeof INJECTIONS)[number] | undefined;
  readonly manifoldHeat?: ManifoldHeat | undefined;
  readonly heating?: number | undefined;
  readonly evaporation?: number | undefined;
  readonly vapour?: number | undefined;
}

const RUNNER_AREA = '0.2 cm2 to 150 cm2';
/** Pressure drops that ratings are given at. */
export const RATING_DROP = '0.5 inHg to 4 inHg';
/** Ratings from a string trimmer's carburetor to a dragster's hat. */
export const RATING_FLOW = '3 cfm to 6000 cfm';

export const inductionSection: z.ZodMiniType<InductionSection> = z.strictObject({
  carburetor: z.optional(
    z.strictObject({
      rating: z.optional(quantity('flow', RATING_FLOW)),
      barrels: z.optional(count(1, 4)),
      ratedAt: z.optional(quantity('pressure', RATING_DROP)),
      count: z.optional(count(1, 16)),
      venturi: z.optional(quantity('length', '4 mm to 150 mm')),
      height: z.optional(quantity('length', '5 mm to 400 mm')),
    }),
  ),
  throttle: z.optional(
    z.strictObject({
      diameter: z.optional(quantity('length', '8 mm to 300 mm')),
      count: z.optional(count(1, 16)),
    }),
  ),
  flowMultiplier: z.optional(pure(0.3, 2)),
  airCleaner: z.optional(
    z.union(
      [
        z.literal('none'),
        z.strictObject({
          flow: quantity('flow', RATING_FLOW),
          at: z.optional(quantity('pressure', '0.1 inHg to 4 inHg')),
        }),
      ],
      { error: () => "needs 'none' or a flow, such as { flow: 1200 cfm, at: 1.5 inHg }" },
    ),
  ),
  restrictor: z.optional(restrictor),
  spacer: z.optional(spacer),
  inletDuct: z.optional(inletDuct),
  manifold: z.optional(word(MANIFOLDS)),
  plenum: z.optional(quantity('volume', '1 cc to 240 l')),
  groups: z.optional(plenumGroups),
  divider: z.optional(divider),
  airbox: z.optional(
    z.strictObject({
      volume: quantity('volume', '0.1 l to 200 l'),
      inlet: z.optional(
        z.strictObject({
          inside: quantity('length', '10 mm to 400 mm'),
          length: z.optional(quantity('length', '0 mm to 3000 mm')),
        }),
      ),
    }),
  ),
  runner: z.optional(
    z.strictObject({
      length: z.optional(quantity('length', '5 mm to 1500 mm')),
      lengthMultiplier: z.optional(pure(0.5, 2)),
      throttleAt: z.optional(quantity('length', '0 mm to 1400 mm')),
      mouth: z.optional(word(MOUTHS)),
      entryArea: z.optional(quantity('area', RUNNER_AREA)),
      exitArea: z.optional(quantity('area', RUNNER_AREA)),
      wallTemperature: z.optional(quantity('temperature', '230 K to 450 K')),
    }),
  ),
  balance: z.optional(runnerBalance),
  flowLoss: z.optional(quantity('share', '0 % to 60 %')),
  injection: z.optional(word(INJECTIONS)),
  manifoldHeat: z.optional(word(MANIFOLD_HEATS)),
  heating: z.optional(quantity('temperature-difference', '-40 K to 80 K')),
  evaporation: z.optional(quantity('share', '0 % to 100 %')),
  vapour: z.optional(quantity('share', '0 % to 100 %')),
});
