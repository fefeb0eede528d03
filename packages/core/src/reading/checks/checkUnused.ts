/** Fields that do nothing beside others: the builder who wrote them believes they count. */

import type { Combination } from '../../combination/combination.ts';
import { SIDES } from '../../combination/sides.ts';
import type { ResolveContext } from '../resolve/context.ts';
import type { CombinationFile } from '../schema/combinationFile.ts';
import type { PipeSection } from '../schema/exhaustSection.ts';
import type { FieldPath, PipePath } from '../schema/fieldPath.ts';
import { fitted } from '../schema/inductionParts.ts';
import type { Sheets } from '../sheet/readSheets.ts';

type Unused = readonly [path: FieldPath, why: string];

/** A warning for each. */
export function checkUnused({ file, ledger, sheets }: ResolveContext, engine: Combination): void {
  const found = [
    ...inChamber(file),
    ...inCam(file),
    ...inHeads(file, sheets),
    ...inInduction(file, styleOf({ file, ledger })),
    ...inExhaust(file),
    ...inBurn(file),
    ...inMixture(file, engine),
  ];
  for (const [path, why] of found) ledger.warn('field-unused', path, `is of no use: ${why}`);
}

/** Fields of a section that are stated. */
function stated<Section extends object, Name extends keyof Section & string>(
  section: Section | undefined,
  names: readonly Name[],
): readonly Name[] {
  return section === undefined ? [] : names.filter((name) => section[name] !== undefined);
}

function inChamber({ chamber }: CombinationFile): readonly Unused[] {
  if (chamber?.volume !== undefined) return [];
  const why = 'the stated chamber.compression decides; to have the volumes decide, state chamber.volume';
  const gap = `${why}. The gap over the squish is chamber.squishHeight`;
  return [
    ...stated(chamber, ['dome', 'dish', 'gasketBore', 'crevice']).map(
      (name): Unused => [`chamber.${name}`, why],
    ),
    ...stated(chamber, ['deck', 'gasketThickness']).map((name): Unused => [`chamber.${name}`, gap]),
  ];
}

function inCam({ cam }: CombinationFile): readonly Unused[] {
  const sides = SIDES.flatMap((side): readonly Unused[] => {
    const { checkedAt, advertised, valveLift, cardRatio } = cam?.[side] ?? {};
    return [
      ...(checkedAt !== undefined && advertised === undefined
        ? [[`cam.${side}.checkedAt`, 'it goes with an advertised duration, and none is given'] as const]
        : []),
      ...(cardRatio !== undefined && valveLift === undefined
        ? [[`cam.${side}.cardRatio`, 'it goes with a valve lift, and the card gives none'] as const]
        : []),
    ];
  });
  if (cam?.cardRatio === undefined) return sides;
  if (SIDES.every((side) => cam[side]?.valveLift === undefined))
    return [...sides, ['cam.cardRatio', 'it goes with valve lifts, and the card gives none']];
  return SIDES.every((side) => cam[side]?.valveLift === undefined || cam[side].cardRatio !== undefined)
    ? [...sides, ['cam.cardRatio', 'each side states its own']]
    : sides;
}

function inHeads({ heads }: CombinationFile, sheets: Sheets): readonly Unused[] {
  const sides = SIDES.flatMap((side): readonly Unused[] => {
    const { portArea, portVolume } = heads?.[side] ?? {};
    return portArea === undefined || portVolume === undefined
      ? []
      : [[`heads.${side}.portVolume`, 'portArea decides']];
  });
  const flows = [heads?.flow, heads?.intake?.flow, heads?.exhaust?.flow].some((flow) => flow !== undefined);
  const isOne = Object.values(sheets.flow).every(
    (sheet) => sheet.intake?.ports === undefined && sheet.exhaust?.ports === undefined,
  );
  const intake = heads?.flow !== undefined || heads?.intake?.flow !== undefined;
  return [
    ...sides,
    ...(heads?.flowOf !== undefined && isOne
      ? [['heads.flowOf', 'no sheet has a column for each of several cylinders'] as const]
      : []),
    ...(intake && heads?.ports !== undefined
      ? [['heads.ports', 'the flow sheet says what the ports do'] as const]
      : []),
    ...(flows
      ? []
      : stated(heads?.bench, ['depression', 'fixture', 'exhaustPipe']).map(
          (name) => [`heads.bench.${name}`, 'no flow sheet is given'] as const,
        )),
  ];
}

/** The style of manifold, stated or estimated. */
function styleOf({ file, ledger }: Pick<ResolveContext, 'file' | 'ledger'>): string | undefined {
  const estimate = ledger.assumed.find(({ path }) => path === 'induction.manifold')?.value;
  return file.induction?.manifold ?? (estimate === undefined ? undefined : String(estimate));
}

function inInduction({ induction }: CombinationFile, manifold: string | undefined): readonly Unused[] {
  const { runner, flowLoss, carburetor } = induction ?? {};
  const spacer = fitted(induction?.spacer);
  if (manifold === 'individual-throttles') {
    const loss: readonly Unused[] =
      flowLoss !== undefined && runner?.mouth !== undefined
        ? [['induction.runner.mouth', 'the measured loss holds what the mouth takes']]
        : [];
    return [
      ...stated(induction, ['plenum', 'groups', 'divider', 'spacer', 'inletDuct']).map(
        (name) =>
          [`induction.${name}`, 'trumpets stand in still air; a box in front of them is an airbox'] as const,
      ),
      ...stated(carburetor, carburetor?.rating === undefined ? [] : ['venturi']).map(
        (name) => [`induction.carburetor.${name}`, 'along a runner the rating decides'] as const,
      ),
      ...stated(carburetor, ['height']).map(
        (name) => [`induction.carburetor.${name}`, 'along a runner it is part of the length'] as const,
      ),
      ...loss,
    ];
  }
  const why = 'it goes with manifold: individual-throttles';
  const holes = spacer?.kind === 'four-hole';
  return [
    ...stated(spacer, holes ? ['opening'] : ['bore', 'bores']).map(
      (name) => [`induction.spacer.${name}`, `it goes with kind: ${holes ? 'open' : 'four-hole'}`] as const,
    ),
    ...stated(induction, ['airbox']).map((name) => [`induction.${name}`, why] as const),
    ...stated(runner, ['throttleAt', 'mouth']).map((name) => [`induction.runner.${name}`, why] as const),
  ];
}

function inExhaust({ exhaust }: CombinationFile): readonly Unused[] {
  const pipe = (section: PipeSection | undefined, path: PipePath): readonly Unused[] =>
    section?.wall !== undefined && section.diameter === undefined
      ? [[`${path}.wall`, 'it goes with an outside diameter, and none is given']]
      : [];
  const muffler = typeof exhaust?.muffler === 'object' ? exhaust.muffler : undefined;
  return [
    ...pipe(exhaust?.primary, 'exhaust.primary'),
    ...pipe(exhaust?.secondary, 'exhaust.secondary'),
    ...(typeof exhaust?.collector === 'object' ? pipe(exhaust.collector, 'exhaust.collector') : []),
    ...pipe(exhaust?.balance, 'exhaust.balance'),
    ...pipe(exhaust?.box?.pipe, 'exhaust.box.pipe'),
    ...(muffler?.airflow !== undefined && muffler.backPressure === undefined
      ? [['exhaust.muffler.airflow', 'it goes with a back-pressure, and the rated flow decides'] as const]
      : []),
    ...(muffler?.at !== undefined && muffler.flow === undefined
      ? [['exhaust.muffler.at', 'it goes with a rated flow, and the back-pressure decides'] as const]
      : []),
  ];
}

function inBurn({ burn }: CombinationFile): readonly Unused[] {
  const { timing } = burn ?? {};
  if (timing === undefined) return [];
  return (['spark', 'ca50'] as const).flatMap((name): readonly Unused[] =>
    burn?.[name] !== undefined && timing !== name ? [[`burn.${name}`, `burn.timing is ${timing}`]] : [],
  );
}

function inMixture({ mixture }: CombinationFile, { mixtureScatter }: Combination): readonly Unused[] {
  if (mixture?.scatter === undefined || mixtureScatter !== undefined) return [];
  const why =
    mixture.differences === undefined
      ? 'it goes with a carburetor that deals liquid fuel out to several cylinders'
      : 'mixture.differences says what each cylinder has';
  return [['mixture.scatter', why]];
}
