/** Section `heads`: valves, ports and what they flowed on the bench. */
import * as z from 'zod/mini';
import { PORT_STATES, type PortState } from '../defaults/ports.ts';
import { count, flag, pure, quantity, sheetName, text, word } from './quantity.ts';

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
  readonly name?: string | undefined;
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

const flowPoint: z.ZodMiniType<FlowPoint> = z.strictObject({
  lift: quantity('length', '0 mm to 40 mm'),
  flow: quantity('flow', '0 cfm to 2000 cfm'),
});

function side(): z.ZodMiniType<HeadSide> {
  return z.strictObject({
    valves: z.optional(count(1, 3)),
    valve: z.optional(quantity('length', '5 mm to 120 mm')),
    stem: z.optional(quantity('length', '1 mm to 20 mm')),
    throat: z.optional(quantity('length', '5 mm to 120 mm')),
    flow: z.optional(
      z.union([sheetName(), z.array(flowPoint).check(z.minLength(2), z.maxLength(60))], {
        error: () => 'needs the name of a CSV sheet or a list of lift and flow',
      }),
    ),
    flowMultiplier: z.optional(pure(0.3, 2)),
    reverseFlow: z.optional(quantity('share', '30 % to 130 %')),
    portLength: z.optional(quantity('length', '10 mm to 500 mm')),
    portArea: z.optional(quantity('area', '0.2 cm2 to 150 cm2')),
    portVolume: z.optional(quantity('volume', '2 cc to 2000 cc')),
    minimumArea: z.optional(quantity('area', '0.2 cm2 to 150 cm2')),
    areaRatio: z.optional(pure(0.5, 1)),
  });
}

export const headsSection: z.ZodMiniType<HeadsSection> = z.strictObject({
  valvesPerCylinder: z.optional(count(2, 5)),
  ports: z.optional(word(PORT_STATES)),
  flow: z.optional(sheetName()),
  flowOf: z.optional(word(FLOWS_OF)),
  bench: z.optional(
    z.strictObject({
      name: z.optional(text(60)),
      depression: z.optional(quantity('pressure', '1 inH2O to 120 inH2O')),
      fixture: z.optional(quantity('length', '20 mm to 260 mm')),
      exhaustPipe: z.optional(flag()),
    }),
  ),
  intake: z.optional(side()),
  exhaust: z.optional(side()),
});
