/** Names and words that builders use for what fields of other names say, with what to write: better than the nearest spelling. */
import { type Dimension, parseQuantity } from '../base/units.ts';
import { SIDES } from '../combination/sides.ts';
import { wordForStandard } from '../combination/wordForStandard.ts';
import { engineNotForecast } from './notForecast.ts';
import type { FieldPath } from './schema/fieldPath.ts';

const MEETS_FIRST = 'a first merge and its pipe are secondary: { diameter: 2.000 in, length: 14 in }';
const TUBE = 'a tube between two collectors is balance: { diameter: 2.000 in, length: 18 in }';
const WIDENS = 'a cone is collector: { diameter: 2.5 in, length: 14 in, exit: 3.5 in }';
const AS_A_BOX = 'the muffler as a volume with its pipe is exhaust.box; muffler says what it loses';
const BY_LOBE =
  'a phaser is the centreline of a lobe by speed, cam.intake.centreline: { 2000 rpm: 98 deg, 6000 rpm: 110 deg }';
const BETWEEN_RUNNERS = 'tubes between runners are balance: { inside: 8 mm, length: 110 mm }';
const CUT = 'a cut divider is divider: { opening: 2 in2 }';
const MEET =
  'which cylinders meet in one collector is groups: [[1, 4], [2, 3]]; a first merge is secondary: { diameter: 2.000 in, length: 14 in }';
const INTO_ONE = ['2-1', '3-1', '4-1', '2-into-1', '3-into-1', '4-into-1'];
const HEADERS = 'tubes and what they end in are primary: { diameter: 1.625 in, length: 32 in } and collector';
const CAMSHAFTS =
  'how many there are is camshafts: 2; what stands between lobe and valve is valvetrain.type, lifters are cam.lifter';
const INDIVIDUAL = 'write manifold: individual-throttles and throttle: { diameter: 46 mm, count: 4 }';
const THROTTLE =
  'a throttle is throttle: { diameter: 46 mm, count: 4 }; one to each cylinder also wants manifold: individual-throttles';
const STACKS = 'write runner: { length: 300 mm, throttleAt: 120 mm, mouth: bell }';
const SEPARATION = 'write separation: 110 deg, in cam degrees';
const CENTRE =
  'the installed centre of the intake lobe is intake: { centreline: 106 deg }, and the exhaust side has its own';
const DURATION =
  'an advertised duration is advertised: 280 deg, checkedAt: 0.006 in; the one at 0.050 in is at050: 227 deg';
const AT_A_LIFT = 'a duration at another lift, 1 mm say, is advertised: 244 deg, checkedAt: 1 mm';
const LASH = 'the two sides are intakeLash and exhaustLash';
const LASH_IS = 'the clearance is valvetrain.intakeLash and valvetrain.exhaustLash';
const GASKET = 'its two figures are gasketThickness, compressed, and gasketBore';
const SIZE = 'bore, stroke and cylinders make it: leave it out';
const RATED =
  'the flow a carburetor is sold by is rating: 750 cfm, the narrowest diameter of one barrel venturi: 34 mm';
const ALIKE = 'carburetors of an engine are alike here: write the mean rating and count: 2';
const LIFT = 'the lift of the lobe is lobeLift, that at the valve is valveLift';
const VALVE = 'write valve: 2.020 in';
const ROD = 'write rod: 5.700 in';
const AVIATION =
  '100LL has a motor octane of about 100, race-100 has 95 and race-110 107; a fuel of your own says it all';
const PUMP =
  'say which by its number on the pump: pump-87 to pump-93 by (R + M) / 2, which have 91 to 98 by research';
const RACE = 'race fuels go by their number, (R + M) / 2: race-100, race-110 or race-116';
const MIXTURES = 'what each cylinder has beyond mixture.lambda goes into mixture.differences';

function ofEachSide(
  section: string,
  names: Readonly<Record<string, string>>,
): Readonly<Record<string, string>> {
  const rows = SIDES.flatMap((side) =>
    Object.entries(names).map(([name, text]) => [`${section}.${side}.${name}`, text] as const),
  );
  return Object.fromEntries(rows);
}

/** By path, for names that are no fields; as they are compared, in small letters without blanks, dashes and underscores. */
const NAMES: Readonly<Record<string, string>> = {
  'burn.advance':
    'spark is burn.spark: 34 deg, or by speed burn.spark: { 3000 rpm: 34 deg, 6000 rpm: 38 deg }',
  'changes.labor': 'write hours, of work',
  'changes.labour': 'write hours, of work',
  'changes.price': 'write cost, a plain number of your money',
  camshaft: 'write cam',
  camshafts: 'write cam; how many there are is cam.camshafts',
  'cam.centerline': CENTRE,
  'cam.centreline': CENTRE,
  'cam.duration': DURATION,
  'cam.icl': CENTRE,
  'cam.lash': LASH_IS,
  'cam.lca': SEPARATION,
  'cam.lobeseparation': SEPARATION,
  'cam.lobeseparationangle': SEPARATION,
  'cam.lsa': SEPARATION,
  'cam.phasing': BY_LOBE,
  'cam.type': CAMSHAFTS,
  'cam.vvt': BY_LOBE,
  ...ofEachSide('cam', {
    at1mm: AT_A_LIFT,
    'duration@1mm': AT_A_LIFT,
    at1: AT_A_LIFT,
    at040: AT_A_LIFT,
    at053: AT_A_LIFT,
    duration: DURATION,
    lash: LASH_IS,
    lift: LIFT,
  }),
  'cam.lift': `each side has its own: ${LIFT}`,
  'chamber.cr': 'write compression: 10.5',
  'chamber.cc': 'write volume: 58 cc',
  'chamber.gasket': GASKET,
  'chamber.headgasket': GASKET,
  'chamber.compressiondifferences': 'the ratio of each cylinder is chamber.compressions: [9.5, 9.4]',
  'exhaust.collector.cone': WIDENS,
  'exhaust.collector.megaphone': WIDENS,
  'exhaust.collector.taper': WIDENS,
  'exhaust.megaphone': WIDENS,
  'exhaust.crossover': TUBE,
  'exhaust.header': HEADERS,
  'exhaust.headers': HEADERS,
  'exhaust.hpipe': TUBE,
  'exhaust.xpipe': `${TUBE}, as short as it is wide where the pipes cross`,
  'exhaust.layout': MEET,
  'exhaust.triy': MEETS_FIRST,
  'exhaust.muffler.kind': AS_A_BOX,
  'exhaust.muffler.pipe': AS_A_BOX,
  'exhaust.muffler.volume': AS_A_BOX,
  'exhaust.muffler.rating': 'its rated flow is muffler: { flow: 600 cfm, at: 1.5 inHg }',
  'exhaust.primary.steps.at': 'a step begins after: 12 in',
  'exhaust.silencer': 'write muffler',
  'exhaust.tailpipe': 'the pipe behind a box is exhaust.box.pipe; without a box it belongs to the collector',
  'engine.compressionratio': 'write chamber: { compression: 10.5 }',
  'engine.bankangle':
    'what the angle between the banks does to the firing is firingIntervals: [315 deg, 405 deg]; left out, they are even',
  'engine.conrod': ROD,
  'engine.displacement': SIZE,
  'engine.rated': 'write ratedSpeed: 5500 rpm',
  'engine.rodlength': ROD,
  'engine.volume': SIZE,
  'engine.rpm':
    'the speed it makes its power at is ratedSpeed, the highest it may turn limits: { redline: 6800 rpm }',
  'groups.choices.labor': 'write hours, of work',
  'groups.choices.labour': 'write hours, of work',
  'groups.choices.price': 'write cost, a plain number of your money',
  'groups.parts': 'the parts of a group are its choices',
  'limits.revs': 'write redline: 6800 rpm',
  'limits.budget': 'what a build of a shelf may cost is limits: { cost: 1500 }',
  ...ofEachSide('heads', { valvediameter: VALVE }),
  'heads.porting': 'write ports: as-cast, bowls-blended or fully-ported',
  'heads.valves': 'write valvesPerCylinder: 4',
  'induction.cfm': 'write carburetor: { rating: 750 cfm }',
  'induction.carburetors': 'two alike are carburetor: { rating: 450 cfm, count: 2 }',
  'induction.carburetor.cfm': RATED,
  'induction.carburetor.flow': RATED,
  'induction.carburetor.size': RATED,
  ...Object.fromEntries(
    ['bore', 'choke', 'chokes', 'diameter', 'throat'].map((name) => [`induction.carburetor.${name}`, RATED]),
  ),
  'induction.body': THROTTLE,
  'induction.throttlebodies': THROTTLE,
  'induction.throttlebody': THROTTLE,
  'induction.throttles': THROTTLE,
  'induction.crossover': BETWEEN_RUNNERS,
  'induction.itb': INDIVIDUAL,
  'induction.itbs': INDIVIDUAL,
  'induction.dividercut': CUT,
  'induction.plenums': 'which cylinders each plenum feeds is groups: [[1, 4, 6, 7], [2, 3, 5, 8]]',
  'induction.stacks': STACKS,
  'induction.trumpets': STACKS,
  'induction.restrictorplate': 'a plate is restrictor: { kind: plate, bores: 4, bore: 1.125 in }',
  'induction.restrictor.diameter': 'the diameter of one bore is bore',
  'induction.restrictor.holes': 'how many bores there are is bores',
  'induction.spacer.diameter': 'the diameter of one hole is bore',
  'induction.spacer.holes': 'how many holes there are is bores',
  'induction.spacer.thickness': 'write height',
  'induction.spacer.type': 'write kind: open or four-hole',
  'mixture.afr': 'write airFuelRatio: 12.8',
  'mixture.bycylinder': MIXTURES,
  'mixture.lambdas': MIXTURES,
  'valvetrain.lash': LASH,
  'valvetrain.ratio': 'the two sides are intakeRatio and exhaustRatio',
  'valvetrain.rocker': 'the two sides are intakeRatio and exhaustRatio',
  'valvetrain.rockers': 'the two sides are intakeRatio and exhaustRatio',
  'valvetrain.rockerratio': 'the two sides are intakeRatio and exhaustRatio',
};

/** By path, for words that a field does not take. */
const WORDS: Readonly<Partial<Record<FieldPath, Readonly<Record<string, string>>>>> = {
  'chamber.plug': { center: 'write central', centre: 'write central', middle: 'write central' },
  'engine.layout': { straight: 'write inline', boxer: 'write flat', twin: 'write inline, v or flat' },
  'exhaust.balance': { 'h-pipe': TUBE, 'x-pipe': TUBE, h: TUBE, x: TUBE },
  'exhaust.box.kind': { perforated: 'holes in a pipe that leads through the box are straight-through' },
  'exhaust.collector': {
    megaphone: WIDENS,
    cone: WIDENS,
    ...Object.fromEntries(INTO_ONE.map((form) => [form, MEET])),
  },
  'exhaust.muffler': {
    perforated: 'write straight-through',
    straight: 'write straight-through',
    glasspack: 'write straight-through',
    baffled: 'write chambered',
  },
  'exhaust.secondary': { none: 'leave it out where the primaries meet in the collector' },
  'exhaust.style': {
    'tri-y': MEETS_FIRST,
    '4-2-1': MEETS_FIRST,
    'four-two-one': MEETS_FIRST,
    ...Object.fromEntries(INTO_ONE.map((form) => [form, `write headers; ${MEET}`])),
  },
  'heads.flowOf': { all: 'did you mean each?' },
  'heads.ports': { ported: 'write fully-ported or bowls-blended', stock: 'write as-cast' },
  'induction.divider': { cut: CUT, open: CUT, whole: 'write none' },
  'induction.manifold': { itb: 'did you mean individual-throttles?' },
  'induction.restrictor.kind': { venturi: 'write sonic', nozzle: 'write sonic' },
  units: { metric: 'write si', imperial: 'write trade', us: 'write trade' },
  'valvetrain.type': {
    bucket: 'write direct-acting',
    buckets: 'write direct-acting',
    finger: 'write finger-follower',
    ohv: 'write pushrod',
    sohc: 'write direct-acting, finger-follower or rocker-arm',
    dohc: 'write direct-acting or finger-follower',
  },
  'induction.spacer.kind': {
    '4-hole': 'write four-hole',
    'two-hole': 'write four-hole, and bores: 2',
    '2-hole': 'write four-hole, and bores: 2',
  },
};

/** By the words in the name of a fuel, in small letters. */
const FUELS: Readonly<Record<string, string>> = {
  avgas: AVIATION,
  '100ll': AVIATION,
  lpg: 'write propane',
  cng: 'write natural-gas',
  lng: 'write natural-gas',
  race: RACE,
  racing: RACE,
  e10: 'the pump fuels with a tenth of ethanol are pump-87-e10, pump-91-e10 and pump-93-e10',
  ...Object.fromEntries(['gasoline', 'petrol', 'regular', 'premium', 'super'].map((name) => [name, PUMP])),
};

/** Where the values of each cylinder, or of each side, go that were written as a list. */
const LISTS: Readonly<Partial<Record<FieldPath, string>>> = {
  'cam.cardRatio': 'each side has its own: cam.intake.cardRatio and cam.exhaust.cardRatio',
  'chamber.compression': 'the ratios of each cylinder go into chamber.compressions',
  'chamber.volume': 'the chambers of each cylinder go into chamber.volumes',
  'exhaust.primary.length': 'the lengths of each cylinder go into exhaust.primary.lengths',
  'heads.flow':
    'one sheet has columns for both sides, and for several ports; the sides can have their own: heads.intake.flow',
  'induction.carburetor': ALIKE,
  'induction.carburetor.rating': ALIKE,
  'induction.carburetor.venturi': ALIKE,
  'mixture.airFuelRatio': MIXTURES,
  'mixture.lambda': MIXTURES,
};

/** Sections that are often written as one size: the field of theirs that such a size is, by what it measures. */
const SIZES: Readonly<Partial<Record<FieldPath, readonly (readonly [of: Dimension, field: string])[]>>> = {
  'exhaust.balance': [['length', 'diameter']],
  'exhaust.collector': [['length', 'diameter']],
  'exhaust.muffler': [
    ['flow', 'flow'],
    ['pressure', 'backPressure'],
  ],
  'exhaust.primary': [['length', 'diameter']],
  'exhaust.secondary': [['length', 'diameter']],
  'induction.airCleaner': [['flow', 'flow']],
  'induction.airbox': [['volume', 'volume']],
  'induction.carburetor': [
    ['flow', 'rating'],
    ['length', 'venturi'],
  ],
  'induction.divider': [['area', 'opening']],
  'induction.restrictor': [['length', 'bore']],
  'induction.spacer': [['length', 'height']],
  'induction.throttle': [['length', 'diameter']],
};

/** What to write in place of a name that is no field, by its path; numbers of list entries left out. */
export function wordForField(path: string): string | null {
  const folded = path
    .replaceAll(/\.\d+(?=\.|$)/gu, '')
    .replaceAll(/[\s_-]/gu, '')
    .toLowerCase();
  return ownOf(NAMES, folded) ?? null;
}

/** What to write in place of a name that is no fuel, by the first word of it that is known. */
export function wordForFuel(name: string): string | null {
  const words = name.toLowerCase().split(/[\s_-]+/u);
  return words.map((word) => ownOf(FUELS, word)).find((answer) => answer !== undefined) ?? null;
}

/** What to write in place of a value that a field does not take. */
export function wordForValue(path: string, value: unknown): string | null {
  if (Array.isArray(value)) return ownOf(LISTS, path) ?? null;
  if (typeof value !== 'string') return null;
  if (path === 'correction') return wordForStandard(value);
  if (SIDES.some((side) => path === `cam.${side}`) && parseQuantity(value, 'angle').ok) return DURATION;
  if (path === 'burn.timing' && parseQuantity(value, 'angle').ok)
    return `that spark at every speed is burn.spark: ${value.trim()}`;
  if (path === 'valvetrain.type' || path === 'chamber.shape') {
    const matter = engineNotForecast(value);
    if (matter !== null) return `${matter.matter}: not forecast; ${matter.hint}`;
  }
  const words = ownOf(WORDS, path) ?? {};
  return ownOf(words, value) ?? sectionFor(path, value);
}

/** The section that a size stands for, or the sizes of a tube with an x between them; null where it stands for none. */
function sectionFor(path: string, value: string): string | null {
  const known = ownOf(SIZES, path) ?? [];
  const size = value.trim();
  const [, field] = known.find(([of]) => parseQuantity(size, of).ok) ?? [];
  if (field !== undefined) return sectionOf(path, [field], [size]);
  const sizes = size.split(/\s+[x×]\s+/u);
  const isTube = known.some(([, name]) => name === 'diameter') && sizes.length > 1 && sizes.length < 4;
  return isTube && sizes.every((each) => parseQuantity(each, 'length').ok)
    ? sectionOf(path, sizes.length > 2 ? ['diameter', 'wall', 'length'] : ['diameter', 'length'], sizes)
    : null;
}

function sectionOf(path: string, names: readonly string[], sizes: readonly string[]): string {
  const fields = names.map((name, i) => `${name}: ${sizes[i]}`).join(', ');
  return `write ${path.split('.').at(-1)}: { ${fields} }`;
}

/** What a table has under a name that a file may have made up, `toString` among them. */
function ownOf<Value>(table: Readonly<Record<string, Value>>, name: string): Value | undefined {
  return Object.hasOwn(table, name) ? table[name] : undefined;
}
