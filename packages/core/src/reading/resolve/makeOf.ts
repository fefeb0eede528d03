/** Whether a file speaks of nothing but the engine as it was made. */
import { estimatedLift, lifter } from '../defaults/cam.ts';
import { chamberShape } from '../defaults/chamber.ts';
import type { Make } from '../defaults/make.ts';
import { type CamKind, intakeDuration, PRODUCTION_SHORTER, ratedSpeed } from '../defaults/ratedSpeed.ts';
import { valveDiameter } from '../defaults/valves.ts';
import { rockerRatio, valvetrainType } from '../defaults/valvetrain.ts';
import type { CamSide, ValvetrainType } from '../schema/camSection.ts';
import type { PartialFile } from '../schema/combinationFile.ts';
import type { ResolveContext } from './context.ts';
import { statedFlow } from './resolveFlow.ts';
import { valveCounts } from './resolveValves.ts';
import { statedDuration } from './statedDuration.ts';

/**
 * `production` without lift table, flow sheet and worked ports, and without a cam card or with one of the cam it was made with: parts left out are then those of a
 * production engine. Estimates that are written out for a change say nothing.
 */
export function makeOf({ written: { file, sheets } }: ResolveContext): Make {
  const isAsMade =
    (hasOwnCam(file) || !(hasLobe(file.cam?.intake) || hasLobe(file.cam?.exhaust))) &&
    (file.heads?.ports ?? 'as-cast') === 'as-cast' &&
    statedFlow(file, sheets, 'intake') === null;
  return isAsMade ? 'production' : 'performance';
}

/** What cam an engine is taken to have: as made with a throttle or barrel for each cylinder, a longer one than others as made. */
export function camKind(context: ResolveContext): CamKind {
  return makeOf(context) === 'production' ? camAsMade(context.written.file) : 'performance';
}

function camAsMade({ engine, induction }: PartialFile): Exclude<CamKind, 'performance'> {
  const cylinders = engine?.cylinders;
  const { manifold, throttle, carburetor } = induction ?? {};
  const alone =
    manifold === undefined
      ? cylinders === 1 || (cylinders !== undefined && (throttle?.count ?? carburetor?.count) === cylinders)
      : manifold === 'individual-throttles' || manifold === 'individual-runner';
  return alone ? 'alone' : 'production';
}

/** Whether a card or a table says what the lobe is like; where it stands, any cam can be degreed. */
function hasLobe({ advertised, at050, at200, lobeLift, valveLift, table }: CamSide = {}): boolean {
  return [advertised, at050, at200, lobeLift, valveLift, table].some((said) => said !== undefined);
}

/**
 * Whether a card is that of the cam the engine was made with: nearer to what production engines of its rated speed have than to the rule of
 * performance cams, by its duration, or by its lift where it says no duration. Where no rated speed is stated either, it is held to
 * the speed that production engines of the size are rated at.
 */
function hasOwnCam(file: PartialFile): boolean {
  const { engine, chamber, heads, cam, valvetrain } = file;
  if (engine === undefined || cam?.intake?.table !== undefined || cam?.exhaust?.table !== undefined)
    return false;
  const { intake, exhaust } = valveCounts(heads) ?? { intake: 1, exhaust: 1 };
  const all = intake + exhaust;
  const kind = cam?.lifter ?? lifter(all, valvetrain?.intakeLash, engine.ratedSpeed).value;
  const shape = chamber?.shape ?? chamberShape(all).value;
  const valve = heads?.intake?.valve ?? valveDiameter(engine.bore, 'intake', intake, all, shape).value;
  const sizes = { bore: engine.bore, stroke: engine.stroke, valves: intake, valveDiameter: valve };
  const rated = engine.ratedSpeed ?? ratedSpeed(sizes, null, 'production').value;
  const longest = intakeDuration(sizes, rated, camAsMade(file)).value + PRODUCTION_SHORTER / 2;
  const stated = statedDuration(file, 'intake', kind);
  if (stated !== null) return stated <= longest;
  const lift = statedLift(file, valvetrain?.type ?? valvetrainType(all).value);
  return lift !== null && lift <= estimatedLift(valve, longest, all).value;
}

/** Lift at the intake valve before lash as stated, or by the lobe's and the rockers [m]; null where the file gives none. */
function statedLift({ cam, valvetrain }: PartialFile, type: ValvetrainType): number | null {
  const { valveLift, lobeLift } = cam?.intake ?? {};
  if (lobeLift !== undefined) return lobeLift * (valvetrain?.intakeRatio ?? rockerRatio(type).value);
  return valveLift ?? null;
}
