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

const RUNNER_AREA = { min: '0.2 cm2', max: '150 cm2' };
/** Pressure drops that ratings are given at. */
export const RATING_DROP: { min: string; max: string } = { min: '0.5 inHg', max: '4 inHg' };
/** Ratings from a string trimmer's carburetor to a dragster's hat. */
export const RATING_FLOW: { min: string; max: string } = { min: '3 cfm', max: '6000 cfm' };

export const inductionSection: z.ZodMiniType<InductionSection> = z
  .strictObject({
    carburetor: z.optional(
      z
        .strictObject({
          rating: z.optional(quantity('flow', RATING_FLOW, 'Rated flow of one carburetor.', '680 cfm')),
          barrels: z.optional(count(1, 4, 'Barrels of one carburetor.', 4, 2)),
          ratedAt: z.optional(
            quantity(
              'pressure',
              RATING_DROP,
              'Pressure drop the rating refers to: usually 1.5 inHg for four barrels, 3.0 inHg for one or two.',
              '1.5 inHg',
            ),
          ),
          count: z.optional(count(1, 16, 'Number of carburetors.', 1, 2)),
          venturi: z.optional(
            quantity(
              'length',
              { min: '4 mm', max: '90 mm' },
              "Narrowest diameter of one barrel's venturi; where barrels differ, that of their mean area. It chokes the carburetor far above its rating.",
              '1.375 in',
            ),
          ),
        })
        .check(z.meta({ description: 'Carburetor; leave out where a throttle body is given.' })),
    ),
    throttle: z.optional(
      z
        .strictObject({
          diameter: z.optional(
            quantity('length', { min: '8 mm', max: '200 mm' }, 'Bore of one throttle.', '62 mm'),
          ),
          count: z.optional(count(1, 16, 'Number of throttles.', 1, 4)),
        })
        .check(z.meta({ description: 'Throttle body; leave out where a carburetor is given.' })),
    ),
    flowMultiplier: z.optional(
      pure(0.3, 2, 'On the flow of carburetor or throttle, stated or estimated.', 1),
    ),
    airCleaner: z.optional(
      z
        .union(
          [
            z.literal('none'),
            z.strictObject({
              flow: quantity('flow', RATING_FLOW, 'Rated flow of the air cleaner, whole engine.', '1200 cfm'),
              at: z.optional(
                quantity(
                  'pressure',
                  { min: '0.1 inHg', max: '4 inHg' },
                  'Pressure drop of the rating.',
                  '1.5 inHg',
                ),
              ),
            }),
          ],
          { error: () => "needs 'none' or a flow, such as { flow: 1200 cfm, at: 1.5 inHg }" },
        )
        .check(
          z.meta({
            description: 'Air cleaner: none, or its flow.',
            examples: ['none', { flow: '1200 cfm', at: '1.5 inHg' }],
          }),
        ),
    ),
    restrictor: z.optional(restrictor),
    spacer: z.optional(spacer),
    inletDuct: z.optional(inletDuct),
    manifold: z.optional(
      word(
        MANIFOLDS,
        'Style of manifold: single-plane, dual-plane, individual-runner (a small plenum behind the throttle of each cylinder, tunnel), individual-throttles (a throttle or carburetor in each runner, in the open or in an airbox) or long-runner.',
      ),
    ),
    plenum: z.optional(
      quantity(
        'volume',
        { min: '1 cc', max: '60 l' },
        'Volume between throttle and runners, all plenums together.',
        '1.8 l',
      ),
    ),
    groups: z.optional(plenumGroups),
    divider: z.optional(divider),
    airbox: z.optional(
      z
        .strictObject({
          volume: quantity('volume', { min: '0.1 l', max: '200 l' }, 'Volume of the box.', '9 l'),
          inlet: z.optional(
            z
              .strictObject({
                inside: quantity('length', { min: '10 mm', max: '400 mm' }, 'Inside diameter.', '90 mm'),
                length: z.optional(
                  quantity(
                    'length',
                    { min: '0 mm', max: '3000 mm' },
                    'Length of the pipe; left out: a hole.',
                    '350 mm',
                  ),
                ),
              })
              .check(
                z.meta({
                  description:
                    'Pipe or hole that leads into the box. Left out: what the airCleaner flows, else a hole.',
                }),
              ),
          ),
        })
        .check(
          z.meta({
            description:
              'Airbox in front of all trumpets, with individual-throttles. An airCleaner stands at its inlet.',
          }),
        ),
    ),
    runner: z.optional(
      z
        .strictObject({
          length: z.optional(
            quantity(
              'length',
              { min: '5 mm', max: '1500 mm' },
              'Plenum, or mouth of the trumpet, to face of the head.',
              '5.5 in',
            ),
          ),
          lengthMultiplier: z.optional(
            pure(
              0.5,
              2,
              'On the length of runner and port that pressure waves see: a measured curve trims it.',
              1,
            ),
          ),
          throttleAt: z.optional(
            quantity(
              'length',
              { min: '0 mm', max: '1400 mm' },
              'Mouth of the trumpet to the throttle or carburetor, with individual-throttles.',
              '90 mm',
            ),
          ),
          mouth: z.optional(
            word(
              MOUTHS,
              'Mouth of the trumpet, with individual-throttles: bell (rounded) or plain (a cut tube).',
            ),
          ),
          entryArea: z.optional(
            quantity('area', RUNNER_AREA, 'Area at the plenum, one cylinder.', '2.8 in2'),
          ),
          exitArea: z.optional(quantity('area', RUNNER_AREA, 'Area at the head, one cylinder.', '2.5 in2')),
          wallTemperature: z.optional(
            quantity(
              'temperature',
              { min: '230 K', max: '450 K' },
              'Wall of runner and port, warm engine.',
              '340 K',
            ),
          ),
        })
        .check(z.meta({ description: 'Runner from plenum to head, one cylinder.' })),
    ),
    balance: z.optional(runnerBalance),
    flowLoss: z.optional(
      quantity(
        'share',
        { min: '0 %', max: '60 %' },
        'Flow lost on the bench with the manifold bolted on, at full lift.',
        '6 %',
      ),
    ),
    injection: z.optional(
      word(
        INJECTIONS,
        'Where fuel is injected behind a throttle body: port (in front of the valve) or direct (into the cylinder).',
      ),
    ),
    manifoldHeat: z.optional(
      word(
        MANIFOLD_HEATS,
        'What heats the floor of the plenum: exhaust (an open crossover), coolant (a passage), or none (blocked, or an air gap).',
      ),
    ),
    heating: z.optional(
      quantity(
        'temperature-difference',
        { min: '-40 K', max: '80 K' },
        'Rise of the charge from warm plenum floor and walls on a day of 60 F, before evaporation cools it.',
        '3 K',
      ),
    ),
    evaporation: z.optional(
      quantity(
        'share',
        { min: '0 %', max: '100 %' },
        "Share of the fuel's latent heat that comes out of the air before the valve.",
        '30 %',
      ),
    ),
    vapour: z.optional(
      quantity(
        'share',
        { min: '0 %', max: '100 %' },
        'Share of the fuel that is vapour when it passes the valve, whatever gave it the heat; the rest evaporates in the cylinder.',
        '60 %',
      ),
    ),
  })
  .check(z.meta({ description: 'From the air cleaner to the face of the head.' }));
