/** What must give way when a field is set: the other ways of saying the same thing, and estimates that rested on it. */

import type { Combination } from '../combination/combination.ts';

/** Consequences of setting one of some fields. */
export interface Entailed {
  /** Other ways of saying it, stated or estimated: two of them in one file would contradict each other. */
  readonly drops: readonly string[];
  /** Estimates of the same part, made anew from what is now known; a stated value stays. */
  readonly releases: readonly string[];
  /** What would follow from the fields set, and keeps the value it has. */
  readonly holds: readonly string[];
}

interface Rule extends Partial<Entailed> {
  readonly set: readonly string[];
  /** Holds only where the file has this field. */
  readonly beside?: string;
  /** Holds only where each side has a camshaft of its own, or only where none has. */
  readonly camshafts?: 'shared' | 'own';
  /** Holds only where every field of `set` is set. */
  readonly every?: true;
}

const SIDES = ['intake', 'exhaust'] as const;
const VOLUMES = ['volume', 'volumes', 'dome', 'dish', 'deck', 'gasketBore', 'gasketThickness', 'crevice'];
const LINES = ['advertised', 'checkedAt', 'at050', 'at200'];
const CENTRELINES = ['intake.centreline', 'exhaust.centreline'];
const WARMTH = ['induction.heating', 'induction.vapour', 'induction.runner.wallTemperature'];
const METERING_RISE = ['induction.injection', 'induction.manifoldHeat', 'induction.evaporation', ...WARMTH];

const within = (section: string, names: readonly string[]): string[] =>
  names.map((name) => `${section}.${name}`);

const PIPES = within('exhaust', ['primary', 'secondary', 'collector', 'balance', 'box.pipe']);

/** A path stands for everything below it too. */
const RULES: readonly Rule[] = [
  // A compression ratio, or the volumes that make one.
  { set: ['chamber.compression'], drops: within('chamber', [...VOLUMES, 'compressions']) },
  { set: ['chamber.compressions'], drops: within('chamber', [...VOLUMES, 'compression']) },
  { set: ['chamber.volume'], drops: within('chamber', ['compression', 'compressions', 'volumes']) },
  { set: ['chamber.volumes'], drops: within('chamber', ['compression', 'compressions', 'volume']) },
  { set: within('chamber', VOLUMES), beside: 'chamber.volume', drops: ['chamber.compression'] },
  { set: ['engine.bore'], releases: ['chamber.gasketBore', 'chamber.crevice'] },
  { set: ['chamber.shape'], releases: ['chamber.plug', 'chamber.squishArea', 'chamber.squishHeight'] },
  { set: ['chamber.deck', 'chamber.gasketThickness'], releases: ['chamber.squishHeight'] },
  // Heads.
  { set: ['heads.valvesPerCylinder'], drops: ['heads.intake.valves', 'heads.exhaust.valves'] },
  {
    set: ['heads.valvesPerCylinder', 'heads.intake.valves', 'heads.exhaust.valves'],
    releases: SIDES.flatMap((side) =>
      within(`heads.${side}`, ['valve', 'stem', 'throat', 'minimumArea']),
    ).concat('cam.camshafts'),
  },
  { set: ['heads.intake.valves', 'heads.exhaust.valves'], drops: ['heads.valvesPerCylinder'] },
  { set: ['heads.ports'], releases: ['heads.intake.throat', 'heads.intake.minimumArea'] },
  { set: ['heads.flow'], releases: ['induction.flowLoss'] },
  { set: ['heads.intake.flow'], releases: ['induction.flowLoss'] },
  ...SIDES.flatMap((side): Rule[] => [
    {
      set: ['heads.flow', `heads.${side}.flow`],
      releases: within(`heads.${side}`, ['flowMultiplier', 'minimumArea']),
    },
    {
      set: [`heads.${side}.portArea`],
      drops: [`heads.${side}.portVolume`],
      releases: within(`heads.${side}`, ['minimumArea', 'areaRatio', 'throat']),
    },
    {
      set: [`heads.${side}.portVolume`],
      drops: [`heads.${side}.portArea`],
      releases: within(`heads.${side}`, ['minimumArea', 'areaRatio', 'throat']),
    },
    {
      set: [`heads.${side}.minimumArea`],
      drops: within(`heads.${side}`, ['portArea', 'portVolume']),
      releases: [`heads.${side}.throat`],
    },
  ]),
  // Lobes: the lines of a card belong together, a measured table stands in their place.
  ...SIDES.flatMap((side): Rule[] => {
    const card = [...within(`cam.${side}`, LINES), `cam.${side}.lobeLift`, `cam.${side}.valveLift`];
    return [
      { set: [`cam.${side}.table`], drops: card },
      { set: card, drops: [`cam.${side}.table`] },
      { set: within(`cam.${side}`, LINES), releases: within(`cam.${side}`, LINES) },
      { set: [`cam.${side}.lobeLift`], drops: [`cam.${side}.valveLift`] },
      { set: [`cam.${side}.valveLift`], drops: [`cam.${side}.lobeLift`] },
    ];
  }),
  // On one shaft, where the intake lobe stands is where the whole cam stands; shafts of their own turn freely.
  { set: ['cam.intake.centreline'], camshafts: 'shared', drops: ['cam.advance', 'cam.exhaust.centreline'] },
  { set: ['cam.exhaust.centreline'], camshafts: 'shared', drops: ['cam.advance', 'cam.intake.centreline'] },
  { set: within('cam', CENTRELINES), every: true, drops: ['cam.separation'] },
  {
    set: within('cam', CENTRELINES),
    camshafts: 'own',
    drops: ['cam.separation', 'cam.advance'],
    holds: within('cam', CENTRELINES),
  },
  { set: ['cam.advance'], beside: 'cam.intake.centreline', drops: ['cam.exhaust.centreline'] },
  { set: ['cam.advance'], drops: ['cam.intake.centreline'] },
  { set: ['cam.cardRatio'], drops: SIDES.map((side) => `cam.${side}.cardRatio`) },
  { set: ['cam.separation'], drops: ['cam.exhaust.centreline'] },
  {
    set: ['cam.lifter'],
    releases: [
      ...SIDES.flatMap((side) => within(`cam.${side}`, LINES)),
      ...within('valvetrain', ['intakeLash', 'exhaustLash']),
      'friction.valvetrain',
    ],
  },
  {
    set: ['valvetrain.type'],
    releases: [
      ...within('valvetrain', ['intakeRatio', 'exhaustRatio', 'intakeLash', 'exhaustLash', 'flex']),
      'friction.valvetrain',
      'cam.camshafts',
    ],
  },
  // Induction.
  { set: ['induction.carburetor'], drops: ['induction.throttle'] },
  { set: ['induction.throttle'], drops: ['induction.carburetor'] },
  { set: ['induction.carburetor.barrels'], releases: ['induction.carburetor.ratedAt'] },
  {
    set: ['induction.manifold'],
    releases: [
      ...within('induction', ['plenum', 'runner', 'flowLoss', 'manifoldHeat', 'heating', 'vapour']),
      ...within('induction', ['carburetor.count', 'throttle.count']),
    ],
  },
  { set: ['induction.manifoldHeat'], releases: WARMTH },
  { set: ['induction.injection'], releases: ['induction.evaporation', ...WARMTH] },
  // Exhaust.
  {
    set: ['exhaust.style'],
    releases: ['exhaust.primary', ...within('exhaust.collector', ['inside', 'length', 'wallTemperature'])],
  },
  ...PIPES.flatMap((pipe): Rule[] => [
    { set: [`${pipe}.diameter`], drops: [`${pipe}.inside`] },
    { set: [`${pipe}.inside`], drops: within(pipe, ['diameter', 'wall']) },
  ]),
  {
    set: within('exhaust.collector', ['diameter', 'inside', 'wall']),
    releases: ['exhaust.collector.mergeVolume'],
  },
  { set: ['exhaust.primary.lengths'], drops: ['exhaust.primary.length'] },
  { set: ['exhaust.primary.length'], drops: ['exhaust.primary.lengths'] },
  { set: ['exhaust.primary'], releases: ['exhaust.secondary'] },
  { set: ['exhaust.collector'], releases: ['exhaust.balance', 'exhaust.box'] },
  { set: ['exhaust.muffler'], releases: ['exhaust.returned', 'exhaust.box'] },
  { set: ['exhaust.box.kind'], releases: ['exhaust.box.volume'] },
  {
    set: within('exhaust.muffler', ['flow', 'at']),
    drops: within('exhaust.muffler', ['backPressure', 'airflow']),
  },
  {
    set: within('exhaust.muffler', ['backPressure', 'airflow']),
    drops: within('exhaust.muffler', ['flow', 'at']),
  },
  // Running.
  {
    set: ['heat.coolant'],
    releases: [
      ...within('heat', ['head', 'piston', 'liner']),
      'induction.heating',
      'induction.runner.wallTemperature',
    ],
  },
  { set: ['fuel'], releases: ['induction.evaporation', 'induction.vapour'] },
  { set: ['mixture.lambda'], drops: ['mixture.airFuelRatio'] },
  { set: ['mixture.airFuelRatio'], drops: ['mixture.lambda'] },
  { set: ['burn.ca50'], drops: within('burn', ['spark', 'timing']) },
  { set: ['burn.spark'], drops: within('burn', ['ca50', 'timing']) },
  { set: ['weather.humidity'], drops: within('weather', ['vapourPressure', 'dewPoint']) },
  { set: ['weather.vapourPressure'], drops: within('weather', ['humidity', 'dewPoint']) },
  { set: ['weather.dewPoint'], drops: within('weather', ['humidity', 'vapourPressure']) },
];

/**
 * What gives way when these fields are set, save what is set itself. A carburetor in place of a throttle, or the
 * reverse, also changes how the charge is warmed.
 */
export function entailed(
  paths: readonly string[],
  { induction, ownCamshafts }: Pick<Combination, 'induction' | 'ownCamshafts'>,
  has: (path: string) => boolean,
): Entailed {
  const camshafts = ownCamshafts === true ? 'own' : 'shared';
  const drops = new Set<string>();
  const releases = new Set<string>();
  const holds = new Set<string>();
  for (const rule of RULES) {
    if (rule.beside !== undefined && !has(rule.beside)) continue;
    if (rule.camshafts !== undefined && rule.camshafts !== camshafts) continue;
    const touched = (field: string): boolean =>
      paths.some((path) => isWithin(path, field) || isWithin(field, path));
    if (rule.every === true ? !rule.set.every(touched) : !rule.set.some(touched)) continue;
    for (const path of rule.drops ?? []) drops.add(path);
    for (const path of rule.releases ?? []) releases.add(path);
    for (const path of rule.holds ?? []) holds.add(path);
  }
  const other = induction.kind === 'carburetor' ? 'induction.throttle' : 'induction.carburetor';
  if (paths.some((path) => isWithin(path, other))) for (const path of METERING_RISE) releases.add(path);
  const isSet = (path: string): boolean =>
    paths.some((field) => isWithin(path, field) || isWithin(field, path));
  return {
    drops: [...drops].filter((path) => !isSet(path)),
    releases: [...releases],
    // Beside a separation or an advance that is set too, the other centreline follows from them.
    holds: isSet('cam.separation') || isSet('cam.advance') ? [] : [...holds].filter((path) => !isSet(path)),
  };
}

/** Whether `path` is `field` or lies below it. */
export function isWithin(path: string, field: string): boolean {
  return path === field || path.startsWith(`${field}.`);
}
