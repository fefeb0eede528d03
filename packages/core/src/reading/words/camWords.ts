/** Words for the fields of the sections `cam` and `valvetrain`. */
import type { Side } from '../../combination/sides.ts';
import { below } from '../fields/fieldFacts.ts';
import type { CamSide } from '../schema/camSection.ts';
import type { FieldWords, WordsOf } from './fieldWords.ts';

/** Words of a lobe, whose centre stands on one side of top centre. */
const lobe = (side: Side, where: 'after' | 'before'): Readonly<Record<keyof CamSide, FieldWords>> => ({
  advertised: ['Advertised duration, crank degrees.', '280 deg'],
  checkedAt: ['Lifter rise at which the advertised duration was taken; makers differ.', '0.006 in'],
  at050: ['Duration at 0.050 in of lifter rise.', '227 deg'],
  at200: ['Duration at 0.200 in of lifter rise.', '145 deg'],
  lobeLift: ['Lift of the lobe.', '0.336 in'],
  valveLift: ['Valve lift on the card, lobe lift times rocker ratio, before lash.', '0.538 in'],
  cardRatio: [
    `Rocker ratio the ${side} valve lift on the card refers to, where it is not that of both sides.`,
    1.6,
  ],
  centreline: [
    `Centre of the ${side} lobe as installed, crank degrees ${where} top centre (60 deg to 170 deg). A value, or one by speed.`,
    '106 deg',
    { '2000 rpm': '98 deg', '6000 rpm': '110 deg' },
  ],
  table: ['CSV sheet with the measured lobe, angle against lift, in place of the card.', 'lobe.csv'],
});

export const camWords: WordsOf<'cam' | 'valvetrain'> = {
  cam: ['The cam: what the card says, or measured lobes.'],
  'cam.lifter': ['Lifter: hydraulic or solid, flat or roller.'],
  'cam.separation': ['Lobe separation, cam degrees.', '110 deg'],
  'cam.advance': ['Advance as installed: separation less intake centreline, crank degrees.', '4 deg'],
  'cam.cardRatio': [
    'Rocker ratio the valve lifts on the card refer to, both sides; left out: the ratio of the rockers fitted, each side its own.',
    1.5,
  ],
  'cam.camshafts': [
    'Camshafts of the whole engine: their bearings rub. One in a block; one or two to a bank overhead.',
    2,
  ],
  'cam.intake': ['The intake lobe.'],
  ...below('cam.intake', lobe('intake', 'after')),
  'cam.exhaust': ['The exhaust lobe.'],
  ...below('cam.exhaust', lobe('exhaust', 'before')),
  valvetrain: ['Lifters, pushrods and rockers.'],
  'valvetrain.type': [
    'What stands between lobe and valve: pushrod, direct-acting (bucket), finger-follower or rocker-arm (overhead cam).',
  ],
  'valvetrain.intakeRatio': ['Valve lift over lobe lift, intake.', 1.5, '1.6:1'],
  'valvetrain.exhaustRatio': ['Valve lift over lobe lift, exhaust.', 1.5],
  'valvetrain.ratioIs': [
    'How the ratio is known: measured, stamped on an aftermarket rocker, or production (stamped parts run about 2 % low).',
  ],
  'valvetrain.intakeLash': ['Intake clearance at the valve, hot.', '0.018 in'],
  'valvetrain.exhaustLash': ['Exhaust clearance at the valve, hot.', '0.020 in'],
  'valvetrain.flex': ['Lift lost at the valve to bending, at full lift.', '0.010 in'],
};
