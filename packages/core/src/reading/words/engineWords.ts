/** Words for the fields of the section `engine`. */
import type { WordsOf } from './fieldWords.ts';

export const engineWords: WordsOf<'engine'> = {
  engine: ['The block and what turns in it.'],
  'engine.bore': ['Cylinder bore.', '3.960 in', '84.4 mm'],
  'engine.stroke': ['Stroke of the crank.', '3.440 in', '88.6 mm'],
  'engine.cylinders': ['Number of cylinders.', 8, 4],
  'engine.rod': ['Connecting rod, centre to centre.', '5.880 in'],
  'engine.layout': ['How the cylinders stand: inline, v or flat.'],
  'engine.firingOrder': [
    'Cylinder numbers in the order they fire, with dashes or as a list.',
    '1-8-4-3-6-5-7-2',
    [1, 3, 4, 2],
  ],
  'engine.firingIntervals': [
    'Crank angles from each firing to the next, in firing order, 720 deg altogether; left out: evenly spaced.',
    ['180 deg', '540 deg'],
  ],
  'engine.banks': [
    'Which cylinders stand on which bank.',
    [
      [1, 3, 5, 7],
      [2, 4, 6, 8],
    ],
  ],
  'engine.ratedSpeed': [
    'Speed the engine is meant to make its power at; sizes the estimates for parts the file leaves out, and ends the speeds that nobody names.',
    '5500 rpm',
  ],
  'engine.inertia': [
    'Moment of inertia of all that turns faster in a dyno pull: crank, rods and pistons, damper, flywheel or flexplate, and the rotor of the brake. It moves no forecast: it says what a pull of a known rate holds back. Left out: estimated where a rate is known.',
    '0.28 kg m2',
    '6.6 lb-ft2',
  ],
};
