/** Section `heads`: valves, ports and what they flowed on the bench. */
import * as z from 'zod/mini';
import { PORT_STATES, type PortState } from '../defaults/ports.ts';
import { count, flag, pure, quantity, sheetName, word } from './quantity.ts';

export interface FlowPoint {
  readonly lift: number;
  readonly flow: number;
}

export interface HeadSide {
  readonly valves?: number | undefined;
  readonly valve?: number | undefined;
  readonly stem?: number | undefined;
  readonly throat?: number | undefined;
  readonly flow?: string | FlowPoint[] | undefined;
  readonly flowMultiplier?: number | undefined;
  readonly reverseFlow?: number | undefined;
  readonly portLength?: number | undefined;
  readonly portArea?: number | undefined;
  readonly portVolume?: number | undefined;
  readonly minimumArea?: number | undefined;
  readonly areaRatio?: number | undefined;
}

export interface BenchSection {
  readonly depression?: number | undefined;
  readonly fixture?: number | undefined;
  readonly exhaustPipe?: boolean | undefined;
}

/** What a sheet with a column a cylinder stands for. */
export const FLOWS_OF = ['mean', 'each'] as const;

export interface HeadsSection {
  readonly valvesPerCylinder?: number | undefined;
  readonly ports?: PortState | undefined;
  readonly flow?: string | undefined;
  readonly flowOf?: (typeof FLOWS_OF)[number] | undefined;
  readonly bench?: BenchSection | undefined;
  readonly intake?: HeadSide | undefined;
  readonly exhaust?: HeadSide | undefined;
}

const flowPoint: z.ZodMiniType<FlowPoint> = z
  .strictObject({
    lift: quantity('length', { min: '0 mm', max: '40 mm' }, 'Valve lift.', '0.300 in'),
    flow: quantity('flow', { min: '0 cfm', max: '2000 cfm' }, 'Flow of one cylinder.', '190 cfm'),
  })
  .check(z.meta({ description: 'One point of a flow sheet.' }));

function side(name: string): z.ZodMiniType<HeadSide> {
  return z
    .strictObject({
      valves: z.optional(count(1, 3, `Number of ${name} valves in one cylinder.`, 1)),
      valve: z.optional(
        quantity('length', { min: '8 mm', max: '120 mm' }, `Head diameter of one ${name} valve.`, '2.02 in'),
      ),
      stem: z.optional(quantity('length', { min: '3 mm', max: '20 mm' }, 'Stem diameter.', '11/32 in')),
      throat: z.optional(
        quantity(
          'length',
          { min: '5 mm', max: '120 mm' },
          'Diameter of the throat below the seat.',
          '1.80 in',
        ),
      ),
      flow: z.optional(
        z
          .union(
            [sheetName('Name of a CSV sheet.'), z.array(flowPoint).check(z.minLength(2), z.maxLength(60))],
            {
              error: () => 'needs the name of a CSV sheet or a list of lift and flow',
            },
          )
          .check(
            z.meta({
              description:
                'Flow of this side: a CSV sheet of its own, or the points themselves, all valves of one cylinder.',
              examples: ['intake-flow.csv', [{ lift: '0.100 in', flow: '66 cfm' }]],
            }),
          ),
      ),
      flowMultiplier: z.optional(pure(0.3, 2, 'On the flow of this side, sheet or estimate.', 1)),
      reverseFlow: z.optional(
        quantity(
          'share',
          { min: '30 %', max: '130 %' },
          'Flow against the usual direction as a share of the flow in it.',
          '85 %',
        ),
      ),
      portLength: z.optional(
        quantity(
          'length',
          { min: '10 mm', max: '500 mm' },
          'Centreline length of the port, face to valve.',
          '5.0 in',
        ),
      ),
      portArea: z.optional(
        quantity(
          'area',
          { min: '0.2 cm2', max: '150 cm2' },
          'Mean cross-section of the port, all ports of this side of one cylinder.',
          '2.35 in2',
        ),
      ),
      portVolume: z.optional(
        quantity(
          'volume',
          { min: '2 cc', max: '2000 cc' },
          'Volume of the port, all ports of this side of one cylinder.',
          '195 cc',
        ),
      ),
      minimumArea: z.optional(
        quantity(
          'area',
          { min: '0.2 cm2', max: '150 cm2' },
          'Smallest cross-section of the port.',
          '2.10 in2',
        ),
      ),
      areaRatio: z.optional(pure(0.5, 1, 'Smallest over mean cross-section of the port.', 0.88)),
    })
    .check(z.meta({ description: `The ${name} side of one cylinder.` }));
}

export const headsSection: z.ZodMiniType<HeadsSection> = z
  .strictObject({
    valvesPerCylinder: z.optional(count(2, 5, 'Valves in one cylinder, intake and exhaust together.', 2, 4)),
    ports: z.optional(
      word(
        PORT_STATES,
        'State of the intake ports, for the throat and smallest area of an engine without flow sheet where they were not measured: as-cast, bowls-blended (under the seats) or fully-ported.',
      ),
    ),
    flow: z.optional(
      sheetName('CSV flow sheet with lift, intake and exhaust columns, units in the header.', 'flow.csv'),
    ),
    flowOf: z.optional(
      word(
        FLOWS_OF,
        'Of a sheet with a column a cylinder (intake 1 cfm, intake 2 cfm): mean (all ports as their mean; left out: this) or each (every cylinder its own; all of them march).',
      ),
    ),
    bench: z.optional(
      z
        .strictObject({
          depression: z.optional(
            quantity(
              'pressure',
              { min: '1 inH2O', max: '120 inH2O' },
              'Test depression the flow refers to.',
              '28 inH2O',
            ),
          ),
          fixture: z.optional(
            quantity(
              'length',
              { min: '20 mm', max: '260 mm' },
              'Bore of the fixture the head stood on.',
              '3.960 in',
            ),
          ),
          exhaustPipe: z.optional(flag('Whether the exhaust was flowed with a pipe stub.')),
        })
        .check(z.meta({ description: 'How the heads were flowed.' })),
    ),
    intake: z.optional(side('intake')),
    exhaust: z.optional(side('exhaust')),
  })
  .check(z.meta({ description: 'Heads: valves, ports and flow.' }));
