/** Files that are wrong in one way or more, with every line they are answered with. */
import { BAD_DOCUMENTS } from './badDocuments.ts';
import { fileWith } from './files.ts';

const heads = (rest: string): string => fileWith({ heads: `{ valvesPerCylinder: 2, ${rest} }` });
const engine = (rest: string): string => fileWith({ engine: `{ bore: 4 in, stroke: 3.48 in, ${rest} }` });

/** Text of a file and every line it is answered with. */
export const CASES: readonly (readonly [what: string, text: string, ...lines: readonly string[]])[] = [
  ...BAD_DOCUMENTS,
  ['half a cylinder', engine('cylinders: 3.5'), 'e.yaml:1:40 engine.cylinders needs a whole number, got 3.5'],
  [
    'a cylinder that fires twice',
    engine('cylinders: 4, firingOrder: 1-3-4-3'),
    'e.yaml:1:54 engine.firingOrder must hold each cylinder from 1 to 4 once',
  ],
  [
    'seven cylinders',
    engine('cylinders: 7'),
    'e.yaml:1:1 engine.firingOrder is needed: no usual one is known for 7 cylinders, v',
  ],
  [
    'intervals that do not close',
    engine('cylinders: 2, firingIntervals: [360 deg, 300 deg]'),
    'e.yaml:1:54 engine.firingIntervals adds up to 660 deg, not 720 deg',
  ],
  [
    'a cylinder without bank',
    engine('cylinders: 4, banks: [[1, 2], [3]]'),
    'e.yaml:1:54 engine.banks must hold each cylinder from 1 to 4 once, in all banks together',
  ],
  [
    'a rod that hits the liner',
    engine('cylinders: 4, rod: 3.5 in'),
    'e.yaml:1:54 engine.rod is impossible with this stroke: rod over stroke is 1.01',
  ],
  [
    'too much compression',
    fileWith({ chamber: '{ compression: 40 }' }),
    'e.yaml:2:12 chamber.compression is impossible: 40 is outside 4 to 20',
  ],
  [
    'compression in words',
    fileWith({ chamber: '{ compression: ten }' }),
    'e.yaml:2:12 chamber.compression needs a plain number or a ratio such as 10.5:1',
  ],
  [
    'a ratio the volumes deny',
    fileWith({ chamber: '{ compression: 11, volume: 64 cc }' }),
    'e.yaml:2:12 chamber.compression is 11, but the volumes give 10.36 (11 would take a chamber of 59.1 cc: check chamber, dome, dish, deck and gasket, or leave the ratio out)',
  ],
  [
    'a dome larger than its chamber',
    fileWith({ chamber: '{ volume: 64 cc, dome: 90 cc }' }),
    'e.yaml:2:27 chamber.dome leaves no room: it is larger than the volume around it',
  ],
  [
    'a piston in the head',
    fileWith({ chamber: '{ volume: 64 cc, deck: -0.05 in, gasketThickness: 0.04 in }' }),
    'e.yaml:2:27 chamber.deck puts the piston into the head: it stands proud by more than the gasket',
  ],
  [
    'durations out of order',
    fileWith({ cam: '{ intake: { advertised: 220 deg, at050: 268 deg } }' }),
    'e.yaml:4:39 cam.intake.at050 is not below the advertised duration: 268 deg against 220 deg',
  ],
  [
    'compression ratios for other cylinders',
    fileWith({ chamber: '{ compressions: [9, 9.2, 9.1] }' }),
    'e.yaml:2:12 chamber.compressions has 3 values for 8 cylinders (give one a cylinder)',
  ],
  [
    'a separation the centrelines deny',
    fileWith({
      cam: '{ separation: 110 deg, intake: { centreline: 106 deg }, exhaust: { centreline: 120 deg } }',
    }),
    'e.yaml:4:8 cam.separation disagrees with the centrelines: 106 deg and 120 deg make 113 deg',
  ],
  [
    'an advance the centreline denies',
    fileWith({ cam: '{ separation: 110 deg, advance: 8 deg, intake: { centreline: 106 deg } }' }),
    'e.yaml:4:29 cam.advance disagrees with the centreline: 110 deg less 106 deg is 4 deg',
  ],
  [
    'lift that is not lobe times ratio',
    fileWith({
      cam: '{ intake: { lobeLift: 0.318 in, valveLift: 0.600 in } }',
      valvetrain: '{ intakeRatio: 1.5 }',
    }),
    'e.yaml:4:38 cam.intake.valveLift is not lobe lift times rocker ratio: 0.318 in times 1.5 is 0.477 in ' +
      '(where the card is for other rockers, state cam.cardRatio)',
  ],
  [
    'valves that do not fit',
    heads('intake: { valve: 2.5 in }, exhaust: { valve: 1.9 in }'),
    'e.yaml:3:42 heads.intake.valve does not fit: valves of 2.5 in and 1.9 in in a bore of 4 in',
  ],
  [
    'a throat wider than its valve',
    heads('intake: { valve: 2 in, throat: 2.1 in }'),
    'e.yaml:3:55 heads.intake.throat is not smaller than the valve, 2 in',
  ],
  [
    'a throat wider than a valve that is not stated',
    heads('intake: { throat: 2.1 in }'),
    'e.yaml:3:42 heads.intake.throat is not smaller than the valve, 1.84 in (that valve is an estimate: state heads.intake.valve)',
  ],
  [
    'a stem too thick for a valve that is not stated',
    heads('exhaust: { stem: 20 mm }'),
    'e.yaml:3:43 heads.exhaust.stem is too thick for a valve of 1.48 in (that valve is an estimate: state heads.exhaust.valve)',
  ],
  [
    'carburetor and throttle',
    fileWith({ induction: '{ carburetor: { rating: 600 cfm }, throttle: { diameter: 60 mm } }' }),
    'e.yaml:4:47 induction.throttle is given beside a carburetor: keep one of the two',
  ],
  [
    'a number for an air cleaner',
    fileWith({ induction: '{ airCleaner: 4 }' }),
    "e.yaml:4:14 induction.airCleaner needs 'none' or a flow, such as { flow: 1200 cfm, at: 1.5 inHg }",
  ],
  [
    'a slip inside a choice',
    fileWith({ exhaust: '{ muffler: { flwo: 600 cfm } }' }),
    'e.yaml:4:23 exhaust.muffler.flwo is not a field of this file (did you mean flow?)',
  ],
  [
    'an unknown fuel',
    fileWith({ fuel: 'methanl' }),
    "e.yaml:4:1 fuel is not a fuel this program knows: 'methanl' (did you mean methanol?)",
  ],
  [
    'a fuel that does not burn',
    fileWith({
      fuel: '{ name: x, atoms: { C: 1, H: 1, O: 9 }, heatingValue: 40 MJ/kg, latentHeat: 300 kJ/kg, researchOctane: 90, motorOctane: 80 }',
    }),
    'e.yaml:4:18 fuel.atoms does not burn: it needs carbon, and less oxygen than it can burn with',
  ],
  [
    'a spark mode without table',
    fileWith({ burn: '{ timing: spark }' }),
    "e.yaml:4:9 burn.timing is 'spark', but burn.spark gives no table",
  ],
  [
    'a dew point above the air',
    fileWith({ weather: '{ temperature: 10 degC, dewPoint: 20 degC }' }),
    'e.yaml:4:34 weather.dewPoint is above the temperature of the air',
  ],
  [
    'yes for true',
    fileWith({ friction: '{ accessories: yes }' }),
    "e.yaml:4:13 friction.accessories needs true or false, got 'yes'",
  ],
  [
    'a sheet that is not there',
    heads('flow: gone.csv'),
    "e.yaml:3:32 heads.flow names the sheet 'gone.csv', which was not found",
  ],
  [
    'a header without unit',
    heads('flow: nounit.csv'),
    "nounit.csv:1 heads.flow has no unit in the header 'lift' (end it with in or mm)",
  ],
  [
    'a misspelt column',
    heads('flow: slip.csv'),
    "slip.csv:1 heads.flow has no intake column among 'lift in', 'intkae cfm' (did you mean intake by 'intkae'?)",
  ],
  [
    'decimal commas between commas',
    heads('flow: comma.csv'),
    'comma.csv:2 heads.flow has 3 cells, the header has 2 (for decimal commas, separate the cells by semicolons)',
  ],
  [
    'a word for a number',
    heads('flow: word.csv'),
    "word.csv:3 heads.flow has 'sixty' in column 'intake cfm', which is no number",
  ],
  [
    'lifts that fall',
    heads('flow: falls.csv'),
    'falls.csv:3 heads.flow has a lift that does not rise from row to row (put the rows in the order of their lift)',
  ],
  ['an empty sheet', heads('flow: empty.csv'), 'empty.csv heads.flow has no rows below a header'],
  ['an open quote', heads('flow: quote.csv'), 'quote.csv:2 heads.flow has a quote that does not close'],
  [
    'negative flow',
    heads('flow: negative.csv'),
    "negative.csv:2 heads.flow has -60 cfm in column 'intake cfm', which is impossible",
  ],
  [
    'enormous flow',
    heads('flow: huge.csv'),
    "huge.csv:3 heads.flow has 1000000000 cfm in column 'intake cfm', which is impossible",
  ],
  [
    'millimetres under inches',
    heads('flow: mixed.csv'),
    "mixed.csv:3 heads.flow has 5 in in column 'lift in', which is impossible (5 mm would be 0.197 in: one unit a column)",
  ],
  [
    'no lift column',
    heads('flow: nolift.csv'),
    "nolift.csv:1 heads.flow has no lift column among 'rise in', 'intake cfm' (name it 'lift in')",
  ],
  [
    'swapped units',
    heads('flow: swapped.csv'),
    "swapped.csv:1 heads.flow has the wrong unit in the header 'lift cfm' (use in or mm)",
    "swapped.csv:1 heads.flow has the wrong unit in the header 'intake in' (use cfm)",
  ],
  [
    'two intake columns',
    heads('flow: twice.csv'),
    "twice.csv:1 heads.flow has two intake columns: 'intake cfm' and 'int cfm' (keep one of them, or name the cylinder of each: 'intake 1 cfm', 'intake 2 cfm')",
  ],
  [
    'flow above what the valve can pass',
    heads('flow: high.csv'),
    'e.yaml:3:32 heads.flow at 0.3 in lift: flow is 1.20 of what the smallest cross-section can pass: a wrong area, depression or reading (the smallest is the valve head, 2.66 in2)',
  ],
  [
    'lifts in inches that are called millimetres',
    heads('bench: { depression: 28 inH2O }, flow: inches.csv'),
    'e.yaml:3:65 heads.flow has intake flow of at least 12.2 times what can pass, at every lift up to 0.46 in (is the unit of the lifts right?)',
    'e.yaml:3:65 heads.flow has exhaust flow of at least 11.1 times what can pass, at every lift up to 0.37 in (is the unit of the lifts right?)',
  ],
  [
    'a decimal comma in a plain number',
    fileWith({ chamber: '{ compression: "9,6" }', mixture: '{ lambda: "0,87" }' }),
    "e.yaml:2:12 chamber.compression has a decimal comma in '9,6' (write 9.6)",
    "e.yaml:4:12 mixture.lambda has a decimal comma in '0,87' (write 0.87)",
  ],
  [
    'a number for a name',
    fileWith({ name: '350' }),
    'e.yaml:4:1 name needs a text, got 350 (put it in quotes: "350")',
  ],
  [
    'a spark before top centre in words',
    fileWith({ burn: '{ spark: 34 deg BTDC }' }),
    "e.yaml:4:9 burn.spark has an unknown unit 'deg BTDC' in '34 deg BTDC' (use deg, positive before top centre)",
  ],
  [
    'sparks before top centre in words, by speed',
    fileWith({ burn: '{ spark: [{ rpm: 1000 rpm, advance: 10 BTDC }] }' }),
    "e.yaml:4:34 burn.spark.0.advance has an unknown unit 'BTDC' in '10 BTDC' (use deg, positive before top centre)",
  ],
  [
    'half of the burn after top centre in words',
    fileWith({ burn: '{ ca50: 8 deg ATDC }' }),
    "e.yaml:4:9 burn.ca50 has an unknown unit 'deg ATDC' in '8 deg ATDC' (use deg, positive after top centre)",
  ],
  [
    'one spark for every speed',
    fileWith({ burn: '{ timing: 34 deg }' }),
    "e.yaml:4:9 burn.timing must be one of knock-limited, best-torque, ca50, spark; got '34 deg' (that spark at every speed is burn.spark: 34 deg)",
  ],
  [
    'a sheet of another depression',
    heads('flow: ten.csv'),
    'e.yaml:3:32 heads.flow at 0.5 in lift: best flow is 0.32 of the ideal through the valve: was the sheet taken at ' +
      'a lower depression? (state heads.bench.depression)',
  ],
  [
    'degrees of nothing',
    fileWith({ cam: '{ intake: { table: degrees.csv } }' }),
    "degrees.csv:1 cam.intake.table does not say which degrees 'deg' are (write 'crank deg' or 'cam deg')",
  ],
  [
    'a flat lobe',
    fileWith({ cam: '{ intake: { table: flat.csv } }' }),
    'flat.csv:1 cam.intake.table shows no lobe: 8 rows, highest lift 0.51 mm (8 rows or more are needed, and more lift than 1.27 mm)',
  ],
  [
    'half burned after top centre, and no angle',
    fileWith({ burn: '{ timing: ca50 }' }),
    "e.yaml:4:9 burn.timing is 'ca50', but burn.ca50 gives no angle",
  ],
  [
    'two timings, and none named',
    fileWith({ burn: '{ ca50: 9 deg, spark: [{ rpm: 1000 rpm, advance: 10 deg }] }' }),
    'e.yaml:4:9 burn.ca50 is given beside a spark table: state burn.timing, or keep one of the two',
  ],
  [
    'two sparks at one speed',
    fileWith({
      burn: '{ spark: [{ rpm: 1000 rpm, advance: 10 deg }, { rpm: 1000 rpm, advance: 30 deg }] }',
    }),
    'e.yaml:4:9 burn.spark gives one speed twice',
  ],
  [
    'groups of a collector that is not there',
    fileWith({ exhaust: '{ collector: none, groups: [[1, 2, 3, 4], [5, 6, 7, 8]] }' }),
    'e.yaml:4:29 exhaust.groups is given although there is no collector',
  ],
  [
    'a valve lift that its lobe and rockers do not make',
    fileWith({
      cam: '{ separation: 110 deg, intake: { at050: 230 deg, lobeLift: 0.3 in, valveLift: 0.52 in } }',
      valvetrain: '{ intakeRatio: 1.5, exhaustRatio: 1.5 }',
    }),
    'e.yaml:4:73 cam.intake.valveLift is not lobe lift times rocker ratio: 0.3 in times 1.5 is 0.45 in ' +
      '(where the card is for other rockers, state cam.cardRatio)',
  ],
  [
    'a lift of nobody',
    fileWith({ cam: '{ intake: { table: whose.csv } }' }),
    "whose.csv:1 cam.intake.table does not say whose lift 'lift in' is (write 'lobe lift' or 'valve lift')",
  ],
  [
    'an angle of four turns',
    fileWith({ cam: '{ intake: { table: angles.csv } }' }),
    'angles.csv:2 cam.intake.table has the impossible angle -1500',
  ],
  [
    'a lobe longer than its cycle',
    fileWith({ cam: '{ intake: { table: turns.csv } }' }),
    'turns.csv:1 cam.intake.table spans more than 720 crank deg',
  ],
  [
    'angles that fall',
    fileWith({ cam: '{ intake: { table: back.csv } }' }),
    'back.csv:5 cam.intake.table has an angle that does not rise from row to row',
  ],
  [
    'a lobe cut off half way up',
    fileWith({ cam: '{ intake: { table: cut.csv, centreline: 108 deg } }' }),
    'cut.csv:2 cam.intake.table begins at 33 % of its highest lift: the rest of the lobe is not known (carry it on to below 10 %)',
  ],
  ['more columns than any bench', heads('flow: wide.csv'), 'wide.csv:1 heads.flow has 41 columns'],
  [
    'more rows than any bench',
    heads('flow: long.csv'),
    'long.csv heads.flow is too long: 420019 characters, at most 400000 are read',
  ],
  ['units and no rows', heads('flow: units.csv'), 'units.csv:1 heads.flow has no rows below a header'],
  [
    'sections in sections without end',
    `engine: ${'{ a: '.repeat(40)}1${' }'.repeat(40)}`,
    'e.yaml:1:109 engine.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a.a is nested too deep',
  ],
  [
    'several slips, in file and sheets',
    fileWith({
      engine: '{ bore: 4, stroke: 3.48 in, cylinders: 8 }',
      heads: '{ valvesPerCylinder: 2, flow: word.csv, intake: { valve: 3 kg } }',
      fuel: 'coal gas',
    }),
    'e.yaml:1:11 engine.bore needs a length with its unit, such as 4 in: 4 alone could be anything',
    "e.yaml:3:58 heads.intake.valve needs a length, got '3 kg' (use in, mm, cm, thou, ft, m)",
    "e.yaml:4:1 fuel is not a fuel this program knows: 'coal gas' (known: pump-87, pump-89, pump-91, pump-93, pump-87-e10, " +
      'pump-91-e10, pump-93-e10, race-100, race-110, race-116, e85, ethanol, methanol, iso-octane, propane, natural-gas; pump fuels by antiknock index, (R+M)/2)',
    "word.csv:3 heads.flow has 'sixty' in column 'intake cfm', which is no number",
  ],
];
