/** Effective flow area against lift, from sheet, inline points or the narrow places of the port. */

import type { Bench, FlowCurve } from '../../combination/combination.ts';
import type { Side } from '../../combination/sides.ts';
import { defaultIntakeFlow, exhaustFromIntake, withPipeStub } from '../../geometry/defaultFlow.ts';
import type { FlowPoints } from '../../geometry/flowArea.ts';
import { areaFromFlow, USUAL_DEPRESSION } from '../../geometry/flowSheet.ts';
import {
  areaRatio,
  type PortState,
  reverseFlow,
  smallestByState,
  throatByPace,
  throatByState,
} from '../defaults/ports.ts';
import type { PartialFile } from '../schema/combinationFile.ts';
import type { SheetFlow } from '../sheet/flowSheet.ts';
import type { Sheets } from '../sheet/readSheets.ts';
import type { ResolveContext } from './context.ts';
import { FieldFault } from './fieldFault.ts';
import { once } from './once.ts';
import type { ResolvedValves } from './resolveValves.ts';

/** One standard deviation of flow without a sheet, and of an exhaust side taken from the intake's [-]. */
export const FLOW_SPREAD = { bySections: 0.07, exhaust: 0.06 } as const;

/** A side's points as measured: lift and flow; null where the file has none. */
export function statedFlow(file: PartialFile, sheets: Sheets, side: Side): SheetFlow | null {
  const inline = file.heads?.[side]?.flow;
  if (Array.isArray(inline)) {
    const points = inline.filter((point) => point.lift > 0);
    return { lift: points.map((point) => point.lift), flow: points.map((point) => point.flow) };
  }
  const own = sheets.flow[`heads.${side}.flow`];
  return (
    (own === undefined ? null : (own[side] ?? own.intake ?? own.exhaust)) ??
    sheets.flow['heads.flow']?.[side] ??
    null
  );
}

export interface ResolvedFlow {
  readonly intake: FlowCurve;
  readonly exhaust: FlowCurve;
  /** Smallest area of the intake port that its flow was estimated from [m2]; null where there is a sheet. */
  readonly intakeSmallest: number | null;
  /** Where the sheets were made; null where there are none. */
  readonly bench: Bench | null;
}

/**
 * Flow curves of both sides.
 *
 * @param pace - mean piston speed of a production engine at its stated rated speed over the usual one [-]; null of others
 */
export function resolveFlow(
  context: ResolveContext,
  intakeValves: ResolvedValves,
  exhaustValves: ResolvedValves,
  intakeLength: () => number,
  pace: () => number | null,
): ResolvedFlow {
  const { file, sheets, ledger } = context;
  const stated = { intake: statedFlow(file, sheets, 'intake'), exhaust: statedFlow(file, sheets, 'exhaust') };
  const hasSheet = stated.intake !== null || stated.exhaust !== null;
  const depression = !hasSheet
    ? USUAL_DEPRESSION
    : ledger.quantity('heads.bench.depression', file.heads?.bench?.depression, 'pressure', 'inH2O', () => ({
        value: USUAL_DEPRESSION,
        spread: null,
        reason: 'usual in the United States; common practice, no source',
      }));
  const { points: intake, smallest } =
    stated.intake === null
      ? estimatedIntake(context, intakeValves, intakeLength, pace)
      : { points: toArea(stated.intake, depression), smallest: null };
  const exhaust =
    stated.exhaust === null
      ? exhaustFromIntake(intake, intakeValves.diameter, exhaustValves.diameter, intakeValves.count)
      : measuredExhaust(context, toArea(stated.exhaust, depression), exhaustValves.diameter);
  return {
    intake: curve(context, 'intake', intake, stated.intake),
    exhaust: curve(context, 'exhaust', exhaust, stated.exhaust),
    intakeSmallest: smallest,
    bench: hasSheet ? { name: file.heads?.bench?.name ?? null, depression } : null,
  };
}

/** Flow by throat and smallest area of the intake port, each as measured or as usual of its state. */
function estimatedIntake(
  { file, ledger }: ResolveContext,
  valves: ResolvedValves,
  length: () => number,
  pace: () => number | null,
): { readonly points: FlowPoints; readonly smallest: number } {
  const section = file.heads?.intake ?? {};
  const area = (valves.count * Math.PI * valves.diameter * valves.diameter) / 4;
  const mean =
    section.portArea ?? (section.portVolume === undefined ? undefined : section.portVolume / length());
  const state = once(
    (): PortState =>
      ledger.word('heads.ports', file.heads?.ports, () => ({
        value: 'as-cast',
        reason: 'nothing is said about the ports',
      })),
  );
  const throat = ledger.quantity('heads.intake.throat', section.throat, 'length', 'in', () => {
    const ports = state();
    const paced = pace();
    return paced === null ? throatByState(valves.diameter, ports) : throatByPace(valves.diameter, paced);
  });
  const smallest =
    mean !== undefined && section.minimumArea === undefined
      ? mean * ledger.number('heads.intake.areaRatio', section.areaRatio, areaRatio)
      : ledger.quantity('heads.intake.minimumArea', section.minimumArea, 'area', 'in2', () =>
          smallestByState((valves.count * Math.PI * throat * throat) / 4, state()),
        );
  const sections = { throat: throat / valves.diameter, smallest: smallest / area };
  return { points: defaultIntakeFlow(valves.diameter, valves.count, sections), smallest };
}

function measuredExhaust(
  { file, sheets, ledger }: ResolveContext,
  points: FlowPoints,
  diameter: number,
): FlowPoints {
  const said = sheets.flow['heads.exhaust.flow'] ?? sheets.flow['heads.flow'];
  const stated = file.heads?.bench?.exhaustPipe ?? said?.exhaustPipe ?? undefined;
  const withPipe = ledger.flag('heads.bench.exhaustPipe', stated, {
    value: true,
    reason:
      'usual; a bare port would flow about 5 % less at high lift than it will with its pipe; common practice, no source',
  });
  return withPipe ? points : withPipeStub(points, diameter);
}

function toArea(points: SheetFlow, depression: number): FlowPoints {
  return { lift: points.lift, area: points.flow.map((flow) => areaFromFlow(flow, depression)) };
}

/** Each cylinder's flow over the mean; nothing where the sheet has one column for this side. */
function sharesOf(cylinders: number, side: Side, flow: SheetFlow | null): Pick<FlowCurve, 'shares'> {
  if (flow?.ports === undefined) return {};
  const { ports } = flow;
  const shares = Array.from(
    { length: cylinders },
    (_, i) => ports.find(({ cylinder }) => cylinder === i + 1)?.share ?? Number.NaN,
  );
  if (shares.includes(Number.NaN) || ports.length !== cylinders) {
    const numbers = ports.map(({ cylinder }) => cylinder).join(', ');
    const message = `is 'each', but the sheet has ${side} columns for cylinders ${numbers} of ${cylinders}: write mean, or flow the others too`;
    throw new FieldFault('heads.flowOf', 'by-cylinder', message);
  }
  return { shares };
}

function curve(
  { file, ledger }: ResolveContext,
  side: Side,
  points: FlowPoints,
  stated: SheetFlow | null,
): FlowCurve {
  const section = file.heads?.[side] ?? {};
  const multiplier =
    stated === null
      ? ledger.number(`heads.${side}.flowMultiplier`, section.flowMultiplier, () => ({
          value: 1,
          spread: side === 'intake' ? FLOW_SPREAD.bySections : FLOW_SPREAD.exhaust,
          reason:
            side === 'intake'
              ? 'no flow sheet: flow by lift over valve diameter, throat and smallest area of the port; common practice, no source'
              : 'no flow sheet: usual share of the intake flow at equal lift over diameter; common practice, no source',
        }))
      : (section.flowMultiplier ?? 1);
  return {
    lift: points.lift,
    area: points.area.map((area) => area * multiplier),
    reverseRatio: ledger.quantity(`heads.${side}.reverseFlow`, section.reverseFlow, 'share', '%', () =>
      reverseFlow(side),
    ),
    measuredTo: stated === null ? null : stated.lift[stated.lift.length - 1],
    ...(file.heads?.flowOf === 'each' ? sharesOf(file.engine.cylinders, side, stated) : {}),
  };
}
