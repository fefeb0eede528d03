/** Section `heads`: valves, ports and what they flowed on the bench. */
import * as z from 'zod';
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

const flowPoint: z.ZodType<FlowPoint> = z
  .strictObject({
    lift: quantity('length', { min: '0 mm', max: '40 mm' }, 'Valve lift.', '0.300 in'),
    flow: quantity('flow', { min: '0 cfm', max: '2000 cfm' }, 'Flow of one cylinder.', '190 cfm'),
  })
  .meta({ description: 'One point of a flow sheet.' });

function side(name: string): z.ZodType<HeadSide> {
  return z
    .strictObject({
      valves: count(1, 3, `Number of ${name} valves in one cylinder.`, 1).optional(),
      valve: quantity(
        'length',
        { min: '8 mm', max: '120 mm' },
        `Head diameter of one ${name} valve.`,
        '2.02 in',
      ).optional(),
      stem: quantity('length', { min: '3 mm', max: '20 mm' }, 'Stem diameter.', '11/32 in').optional(),
      throat: quantity(
        'length',
        { min: '5 mm', max: '120 mm' },
        'Diameter of the throat below the seat.',
        '1.80 in',
      ).optional(),
      flow: z
        .union([sheetName('Name of a CSV sheet.'), z.array(flowPoint).min(2).max(60)], {
          error: () => 'needs the name of a CSV sheet or a list of lift and flow',
        })
        .meta({
          description:
            'Flow of this side: a CSV sheet of its own, or the points themselves, all valves of one cylinder.',
          examples: ['intake-flow.csv', [{ lift: '0.100 in', flow: '66 cfm' }]],
        })
        .optional(),
      flowMultiplier: pure(0.3, 2, 'On the flow of this side, sheet or estimate.', 1).optional(),
      reverseFlow: quantity(
        'share',
        { min: '30 %', max: '130 %' },
        'Flow against the usual direction as a share of the flow in it.',
        '85 %',
      ).optional(),
      portLength: quantity(
        'length',
        { min: '10 mm', max: '500 mm' },
        'Centreline length of the port, face to valve.',
        '5.0 in',
      ).optional(),
      portArea: quantity(
        'area',
        { min: '0.2 cm2', max: '150 cm2' },
        'Mean cross-section of the port, all ports of this side of one cylinder.',
        '2.35 in2',
      ).optional(),
      portVolume: quantity(
        'volume',
        { min: '2 cc', max: '2000 cc' },
        'Volume of the port, all ports of this side of one cylinder.',
        '195 cc',
      ).optional(),
      minimumArea: quantity(
        'area',
        { min: '0.2 cm2', max: '150 cm2' },
        'Smallest cross-section of the port.',
        '2.10 in2',
      ).optional(),
      areaRatio: pure(0.5, 1, 'Smallest over mean cross-section of the port.', 0.88).optional(),
    })
    .meta({ description: `The ${name} side of one cylinder.` });
}

export const headsSection: z.ZodType<HeadsSection> = z
  .strictObject({
    valvesPerCylinder: count(2, 5, 'Valves in one cylinder, intake and exhaust together.', 2, 4).optional(),
    ports: word(
      PORT_STATES,
      'State of the intake ports, for the throat and smallest area of an engine without flow sheet where they were not measured: as-cast, bowls-blended (under the seats) or fully-ported.',
    ).optional(),
    flow: sheetName(
      'CSV flow sheet with lift, intake and exhaust columns, units in the header.',
      'flow.csv',
    ).optional(),
    flowOf: word(
      FLOWS_OF,
      'Of a sheet with a column a cylinder (intake 1 cfm, intake 2 cfm): mean (all ports as their mean; left out: this) or each (every cylinder its own; all of them march).',
    ).optional(),
    bench: z
      .strictObject({
        depression: quantity(
          'pressure',
          { min: '1 inH2O', max: '120 inH2O' },
          'Test depression the flow refers to.',
          '28 inH2O',
        ).optional(),
        fixture: quantity(
          'length',
          { min: '20 mm', max: '260 mm' },
          'Bore of the fixture the head stood on.',
          '3.960 in',
        ).optional(),
        exhaustPipe: flag('Whether the exhaust was flowed with a pipe stub.').optional(),
      })
      .meta({ description: 'How the heads were flowed.' })
      .optional(),
    intake: side('intake').optional(),
    exhaust: side('exhaust').optional(),
  })
  .meta({ description: 'Heads: valves, ports and flow.' });
