/** Words for the fields of the section `induction`. */
import type { WordsOf } from './fieldWords.ts';

export const inductionWords: WordsOf<'induction'> = {
  induction: ['From the air cleaner to the face of the head.'],
  'induction.carburetor': ['Carburetor; leave out where a throttle body is given.'],
  'induction.carburetor.rating': ['Rated flow of one carburetor.', '680 cfm'],
  'induction.carburetor.barrels': ['Barrels of one carburetor.', 4, 2],
  'induction.carburetor.ratedAt': [
    'Pressure drop the rating refers to: usually 1.5 inHg for four barrels, 3.0 inHg for one or two.',
    '1.5 inHg',
  ],
  'induction.carburetor.count': ['Number of carburetors.', 1, 2],
  'induction.carburetor.venturi': [
    "Narrowest diameter of one barrel's venturi; where barrels differ, that of their mean area. It chokes the carburetor far above its rating, and tells the rating where that is left out.",
    '1.375 in',
  ],
  'induction.carburetor.height': [
    'Length of one barrel, from its base to where air enters it. The gas in it has weight and swings between plenum and open air.',
    '4.3 in',
  ],
  'induction.throttle': ['Throttle body; leave out where a carburetor is given.'],
  'induction.throttle.diameter': ['Bore of one throttle.', '62 mm'],
  'induction.throttle.count': ['Number of throttles.', 1, 4],
  'induction.flowMultiplier': ['Multiplier on the flow of carburetor or throttle, stated or estimated.', 1],
  'induction.airCleaner': ['Air cleaner: none, or its flow.', 'none', { flow: '1200 cfm', at: '1.5 inHg' }],
  'induction.airCleaner.flow': ['Rated flow of the air cleaner, whole engine.', '1200 cfm'],
  'induction.airCleaner.at': ['Pressure drop of the rating.', '1.5 inHg'],
  'induction.restrictor': [
    'Restrictor plate or sonic restrictor in series with carburetor or throttle. With individual-throttles it stands at the inlet of the airbox. Left out: none.',
    { kind: 'plate', bores: 4, bore: '1.125 in' },
    'none',
  ],
  'induction.restrictor.kind': [
    'plate (bores under the carburetor or behind the throttle) or sonic (rounded mouth and diffuser, in front of it).',
  ],
  'induction.restrictor.bore': ['Diameter of one bore at its narrowest.', '1.125 in'],
  'induction.restrictor.bores': ['Bores, whole engine.', 4, 1],
  'induction.restrictor.discharge': [
    'Discharge coefficient: what a bore passes, over what its area could.',
    0.75,
  ],
  'induction.restrictor.recovery': [
    'Share of the pressure drop at the throat that a diffuser behind it gives back.',
    '80 %',
  ],
  'induction.spacer': [
    'Spacer between carburetor or throttle body and plenum. Left out: none.',
    { kind: 'four-hole', height: '1 in' },
    'none',
  ],
  'induction.spacer.kind': [
    'open (one opening, which makes the plenum taller) or four-hole (a hole under each barrel, however many there are).',
  ],
  'induction.spacer.height': ['Height of the spacer.', '1 in'],
  'induction.spacer.bore': ['Diameter of one hole of a four-hole spacer.', '1.69 in'],
  'induction.spacer.bores': ['Holes of a four-hole spacer, all carburetors together.', 4, 2],
  'induction.spacer.opening': ['Area of an open spacer, all carburetors together.', '13 in2'],
  'induction.spacer.loss': [
    'Pressure lost in the opening or the holes, in dynamic pressures, beside that of the jet.',
    0.1,
  ],
  'induction.inletDuct': [
    'Pipe to the plenum, with the throttle or carburetor at its front; one to each plenum. Left out: the throttle sits on the plenum.',
    { inside: '70 mm', length: '250 mm' },
    'none',
  ],
  'induction.inletDuct.inside': ['Inside diameter.', '70 mm'],
  'induction.inletDuct.length': ['Throttle to plenum.', '250 mm'],
  'induction.manifold': [
    'Style of manifold: single-plane, dual-plane, individual-runner (a throttle or barrel with a small plenum to each cylinder), individual-throttles (a throttle or carburetor in each runner, in the open or in an airbox) or long-runner.',
  ],
  'induction.plenum': ['Volume between throttle and runners, all plenums together.', '1.8 l'],
  'induction.groups': [
    'Which cylinders each plenum feeds; carburetors, throttles and plenum volume are shared out by cylinders. Left out: one plenum, or with dual-plane two, each for every other cylinder in firing order.',
    [
      [1, 3, 5, 7],
      [2, 4, 6, 8],
    ],
  ],
  'induction.divider': [
    'Opening between two plenums, such as the two planes of a dual-plane manifold. Left out: a whole divider; but a slot under the secondaries where one carburetor of four barrels stands over a dual plane, and the file speaks of other parts than the engine was made with.',
    { opening: '2 in2' },
    'none',
  ],
  'induction.divider.opening': [
    'Area of the opening cut in the divider, or of the passage between two plenums.',
    '2 in2',
  ],
  'induction.divider.discharge': [
    'Discharge coefficient: what the opening passes, over what its area could.',
    0.65,
  ],
  'induction.airbox': [
    'Airbox in front of all trumpets, with individual-throttles. An airCleaner stands at its inlet.',
  ],
  'induction.airbox.volume': ['Volume of the box.', '9 l'],
  'induction.airbox.inlet': [
    'Pipe or hole that leads into the box. Left out: what the airCleaner flows, else a hole.',
  ],
  'induction.airbox.inlet.inside': ['Inside diameter.', '90 mm'],
  'induction.airbox.inlet.length': ['Length of the pipe; left out: a hole.', '350 mm'],
  'induction.runner': ['Runner from plenum to head, one cylinder.'],
  'induction.runner.length': ['Plenum, or mouth of the trumpet, to face of the head.', '5.5 in'],
  'induction.runner.lengthMultiplier': [
    'Multiplier on the length of runner and port that pressure waves see: a measured curve trims it.',
    1,
  ],
  'induction.runner.throttleAt': [
    'Mouth of the trumpet to the throttle or carburetor, with individual-throttles.',
    '90 mm',
  ],
  'induction.runner.mouth': [
    'Mouth of the trumpet, with individual-throttles: bell (rounded) or plain (a cut tube).',
  ],
  'induction.runner.entryArea': ['Area at the plenum, one cylinder.', '2.8 in2'],
  'induction.runner.exitArea': ['Area at the head, one cylinder.', '2.5 in2'],
  'induction.runner.wallTemperature': ['Wall temperature of runner and port, warm engine.', '340 K'],
  'induction.balance': [
    'Balance tubes between runners, such as those between individual throttles. With them every cylinder is computed. Left out: none.',
    { inside: '8 mm', length: '110 mm' },
    'none',
  ],
  'induction.balance.inside': ['Inside diameter of one tube.', '8 mm'],
  'induction.balance.length': ['Length of one tube.', '110 mm'],
  'induction.balance.at': ['From the face of the head back to where the tubes join the runners.', '60 mm'],
  'induction.balance.pairs': [
    'Which runners are joined. Left out: neighbours of each bank, or the two cylinders of a twin.',
    [
      [1, 2],
      [2, 3],
    ],
  ],
  'induction.flowLoss': ['Flow lost on the bench with the manifold bolted on, at full lift.', '6 %'],
  'induction.injection': [
    'Where fuel is injected behind a throttle body: port (in front of the valve) or direct (into the cylinder).',
  ],
  'induction.manifoldHeat': [
    "What heats the floor of the plenum: exhaust (an open crossover), coolant (a passage, or the engine's hot valley under a closed crossover), or none (an air gap).",
  ],
  'induction.heating': [
    'Rise of the charge from warm plenum floor and walls on a day of 60 F, before evaporation cools it.',
    '3 K',
  ],
  'induction.evaporation': [
    "Share of the fuel's latent heat that comes out of the air before the valve; behind a carburetor of drops of 50 um: finer and coarser ones give more and less.",
    '30 %',
  ],
  'induction.vapour': [
    'Share of the fuel that is vapour when it passes the valve, whatever gave it the heat; the rest evaporates in the cylinder. Behind a carburetor of drops of 50 um.',
    '60 %',
  ],
};
