/** A document to a complete combination: sections, sheets, checks, then every gap filled and listed. */

import { DomainError } from '../base/errors.ts';
import type { Result } from '../base/result.ts';
import type { Bench, Chamber, Combination, Port } from '../combination/combination.ts';
import { Ledger } from '../combination/ledger.ts';
import type { Problem } from '../combination/problem.ts';
import { checkResolved } from './checks/checkResolved.ts';
import { checkStated } from './checks/checkStated.ts';
import { isTrusted, withoutDoubtful } from './checks/trust.ts';
import type { CombinationDocument } from './combinationDocument.ts';
import { type BreathingSizes, ratedPace, ratedSpeed } from './defaults/ratedSpeed.ts';
import { editDocument } from './editDocument.ts';
import { inFileOrder } from './inFileOrder.ts';
import { problemOf } from './problemOf.ts';
import { readSections } from './readSections.ts';
import type { ResolveContext } from './resolve/context.ts';
import { FieldFault } from './resolve/fieldFault.ts';
import { camKind, makeOf } from './resolve/makeOf.ts';
import { once } from './resolve/once.ts';
import { type ResolvedBlock, resolveBlock } from './resolve/resolveBlock.ts';
import { resolveBySpeed } from './resolve/resolveBySpeed.ts';
import { resolveCalibration } from './resolve/resolveCalibration.ts';
import { type ResolvedCam, type ResolvedGear, resolveGear, usualLifter } from './resolve/resolveCam.ts';
import { resolveChamber } from './resolve/resolveChamber.ts';
import { resolveExhaust } from './resolve/resolveExhaust.ts';
import { resolveFlow } from './resolve/resolveFlow.ts';
import { resolveInduction } from './resolve/resolveInduction.ts';
import { type ResolvedPort, resolvePort, resolvePortLength } from './resolve/resolvePort.ts';
import {
  resolveBurn,
  resolveCamshafts,
  resolveCorrection,
  resolveDifferences,
  resolveFriction,
  resolveFuel,
  resolveLambda,
  resolveLimits,
  resolveWalls,
  resolveWeather,
} from './resolve/resolveRunning.ts';
import { type ResolvedValves, resolveValves, valveCounts } from './resolve/resolveValves.ts';
import { statedDuration } from './resolve/statedDuration.ts';
import type { CombinationFile } from './schema/combinationFile.ts';
import { readSheets, type SheetSource } from './sheet/readSheets.ts';

/** Where sheets come from, and what the file itself says. */
export interface ResolveOptions {
  /** Text of the CSV sheets that the document names. */
  readonly sheet?: SheetSource | undefined;
  /**
   * What somebody wrote, where estimates are written out in the document: parts that are left out are then those that suit this. Left out: the
   * document is as it was written.
   */
  readonly written?: CombinationDocument | undefined;
}

/**
 * Resolves a document. `sheet` gives the text of the CSV sheets it names.
 *
 * @example
 * ```ts
 * const resolved = resolveDocument(editDocument(baseline.stated, 'chamber.compression', 10.5));
 * if (resolved.ok) console.log(resolved.value.chamber.clearanceVolume);
 * ```
 */
export function resolveDocument(
  document: CombinationDocument,
  options: ResolveOptions = {},
): Result<Combination, Problem> {
  const sections = readSections(document);
  const { sheets, problems: sheetProblems } = readSheets(document, options.sheet);
  const problems = [...sections.problems, ...sheetProblems, ...checkStated(document, sections.file)];
  if (problems.length > 0 || sections.file.engine === undefined) {
    return {
      ok: false,
      problems: inFileOrder([...problems, ...problemsBehind(document, problems, options)]),
    };
  }
  const context: ResolveContext = {
    file: sections.file as CombinationFile,
    sheets,
    ledger: new Ledger(),
    written:
      options.written === undefined
        ? { file: sections.file, sheets }
        : {
            file: readSections(options.written).file,
            sheets: readSheets(options.written, options.sheet).sheets,
          },
  };
  try {
    const combination = resolve(context);
    const late = checkResolved(document, context, combination);
    return late.length > 0 ? { ok: false, problems: inFileOrder(late) } : { ok: true, value: combination };
  } catch (error) {
    if (error instanceof FieldFault)
      return { ok: false, problems: [problemOf(document, error.path, error.code, error.message)] };
    // Values that are sound alone and impossible together, past every check above: still a problem of the file.
    if (!(error instanceof DomainError)) throw error;
    return {
      ok: false,
      problems: [problemOf(document, '', 'inconsistent', `does not fit together: ${error.message}`)],
    };
  }
}

/**
 * Problems that would show only once the ones found are mended: looked for at once, with the fields in question taken out, so
 * that one reading names all there is. What an estimate in such a field's place might have caused is left out.
 */
function problemsBehind(
  document: CombinationDocument,
  found: readonly Problem[],
  options: ResolveOptions,
): readonly Problem[] {
  const first = withStandIns(withoutDoubtful(document, found));
  const isNew = (problem: Problem): boolean =>
    isTrusted(problem, found) &&
    !found.some((other) => other.path === problem.path && other.code === problem.code);
  const stated = checkStated(first, readSections(first).file).filter(isNew);
  const rest = withoutDoubtful(first, stated);
  const { file } = readSections(rest);
  if (file.engine === undefined) return stated;
  // Compression is the one figure of these without an estimate; any stands in, since its checks are then not trusted.
  const chamber = file.chamber?.volume === undefined ? { compression: 10, ...file.chamber } : file.chamber;
  const { sheets } = readSheets(rest, options.sheet);
  const context: ResolveContext = {
    file: { ...file, engine: file.engine, chamber },
    sheets,
    ledger: new Ledger(),
    written: { file, sheets },
  };
  try {
    const late = checkResolved(rest, context, resolve(context)).filter(isNew);
    return [...stated, ...late.filter((problem) => isTrusted(problem, stated))];
  } catch (error) {
    if (!(error instanceof DomainError || error instanceof FieldFault)) throw error;
    return stated;
  }
}

/** What every engine must state, where it is in doubt or missing: any value, since checks that look at it are then not trusted. */
const STAND_INS = { 'engine.bore': '90 mm', 'engine.stroke': '90 mm', 'engine.cylinders': 8 } as const;

function withStandIns(document: CombinationDocument): CombinationDocument {
  const written: unknown = document.data['engine'];
  const stated = typeof written === 'object' && written !== null ? written : {};
  return Object.entries(STAND_INS).reduce(
    (left, [path, value]) =>
      Object.hasOwn(stated, path.slice('engine.'.length)) ? left : editDocument(left, path, value),
    document,
  );
}

/** Every gap filled, in an order in which each estimate finds what it rests on; the list of what was assumed has the same order. */
function resolve(context: ResolveContext): Combination {
  const { file, ledger } = context;
  const block = resolveBlock(context);
  const counts = valveCounts(file.heads) ?? { intake: 1, exhaust: 1 };
  const valves = counts.intake + counts.exhaust;
  const chamber = resolveChamber(context, block, valves);
  const { gear, bench, intake, exhaust, rated } = resolveHeads(context, block, counts, chamber);
  const fuel = resolveFuel(context, chamber.compressionRatio);
  const banks = block.banks.length;
  const shafts = once(() => resolveCamshafts(context, banks, gear, valves));
  const ownCamshafts = (): boolean => shafts() >= 2 * banks;
  const induction = resolveInduction(context, {
    block,
    valves,
    portArea: intake.portArea,
    portLength: intake.portLength,
    flow: intake.flow,
    maxLift: grossLift(gear.intake),
    fuel,
    ratedSpeed: rated,
  });
  const engine: Combination = {
    name: file.name ?? 'Unnamed combination',
    block: block.block,
    chamber,
    ...(bench === null ? {} : { bench }),
    intake,
    exhaust,
    induction,
    exhaustSystem: resolveExhaust(context, { block, portArea: exhaust.portArea, ratedSpeed: rated }),
    fuel,
    lambda: resolveLambda(context, fuel),
    ...resolveDifferences(context, fuel, induction),
    burn: resolveBurn(context),
    walls: resolveWalls(context),
    friction: resolveFriction(context, block, gear, shafts, rated),
    ...(ownCamshafts() ? { ownCamshafts: true as const } : {}),
    weather: resolveWeather(context),
    correction: resolveCorrection(context),
    ...(file.pullRate === undefined ? {} : { pullRate: file.pullRate }),
    units: file.units ?? 'trade',
    limits: resolveLimits(context),
    ratedSpeed: file.engine.ratedSpeed ?? null,
    calibration: resolveCalibration(context),
    assumed: ledger.assumed,
    warnings: ledger.warnings,
  };
  const bySpeed = resolveBySpeed(context, fuel, gear, ownCamshafts() ? 'own' : 'shared');
  return bySpeed === null ? engine : { ...engine, bySpeed };
}

/** Both sides of the heads with what moves their valves. */
interface ResolvedHeads {
  readonly gear: ResolvedGear;
  /** Where the sheets were made; null where there are none. */
  readonly bench: Bench | null;
  readonly intake: Port;
  readonly exhaust: Port;
  /** Speed of rated power [1/min]: listed among what was assumed once something is sized by it. */
  readonly rated: () => number;
}

function resolveHeads(
  context: ResolveContext,
  { block }: ResolvedBlock,
  counts: { readonly intake: number; readonly exhaust: number },
  chamber: Chamber,
): ResolvedHeads {
  const { file, ledger } = context;
  const valves = counts.intake + counts.exhaust;
  const intakeValves = resolveValves(context, 'intake', counts, chamber.shape);
  const exhaustValves = resolveValves(context, 'exhaust', counts, chamber.shape);
  const breathing: BreathingSizes = {
    bore: block.bore,
    stroke: block.stroke,
    valves: counts.intake,
    valveDiameter: intakeValves.diameter,
  };
  const rated = once(() => {
    const kind = file.cam?.lifter ?? usualLifter(context, valves).value;
    return ledger.quantity('engine.ratedSpeed', file.engine.ratedSpeed, 'speed', 'rpm', () =>
      ratedSpeed(breathing, statedDuration(file, 'intake', kind), camKind(context)),
    );
  });
  const gear = resolveGear(context, breathing, exhaustValves.diameter, valves, rated);
  const intakeLength = once(() => resolvePortLength(context, 'intake'));
  const stated = context.written.file.engine?.ratedSpeed;
  const pace = (): number | null =>
    stated !== undefined && makeOf(context) === 'production' ? ratedPace(breathing, stated) : null;
  const flow = resolveFlow(context, intakeValves, exhaustValves, intakeLength, pace);
  const intakePort = resolvePort(context, 'intake', intakeValves, {
    length: intakeLength(),
    flow: flow.intake,
    smallest: flow.intakeSmallest,
  });
  const exhaustPort = resolvePort(context, 'exhaust', exhaustValves, {
    length: resolvePortLength(context, 'exhaust'),
    flow: flow.exhaust,
    smallest: null,
  });
  return {
    gear,
    bench: flow.bench,
    intake: portOf(intakeValves, intakePort, gear.intake, flow.intake),
    exhaust: portOf(exhaustValves, exhaustPort, gear.exhaust, flow.exhaust),
    rated,
  };
}

function portOf(valves: ResolvedValves, port: ResolvedPort, cam: ResolvedCam, flow: Port['flow']): Port {
  return {
    valves: valves.count,
    valveDiameter: valves.diameter,
    stemDiameter: valves.stem,
    flow,
    portLength: port.length,
    portArea: port.area,
    ...cam,
  };
}

/** Lobe lift times rocker ratio [m]. */
function grossLift(cam: ResolvedCam): number {
  const lift = cam.lobe.kind === 'card' ? cam.lobe.maxLift : Math.max(...cam.lobe.lift);
  return lift * cam.rockerRatio;
}
