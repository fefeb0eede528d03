/** Words for the fields of the section `heads`. */
import type { FieldWords, WordsOf } from './fieldWords.ts';

const STEM: FieldWords = ['Stem diameter.', '11/32 in'];
const SIDE_FLOW =
  'Flow of this side: a CSV sheet of its own, or the points themselves, all valves of one cylinder.';
const LIFT: FieldWords = ['Valve lift.', '0.300 in'];
const FLOW_MULTIPLIER: FieldWords = ['Multiplier on the flow of this side, sheet or estimate.', 1];
const REVERSE_FLOW = 'Flow backwards through the valve, as a share of the flow in the usual direction.';
const PORT_LENGTH = 'Centreline length of the port, face to valve.';
const PORT_AREA = 'Mean cross-section of the port, all ports of this side of one cylinder.';
const PORT_VOLUME = 'Volume of the port, all ports of this side of one cylinder.';
const AREA_RATIO: FieldWords = ['Smallest over mean cross-section of the port.', 0.88];

export const headsWords: WordsOf<'heads'> = {
  heads: ['Heads: valves, ports and flow.'],
  'heads.valvesPerCylinder': ['Valves in one cylinder, intake and exhaust together.', 2, 4],
  'heads.ports': [
    'State of the intake ports: as-cast, bowls-blended (under the seats) or fully-ported. Without a flow sheet, throat and smallest area are estimated from it where they were not measured.',
  ],
  'heads.flow': ['CSV flow sheet with lift, intake and exhaust columns, units in the header.', 'flow.csv'],
  'heads.flowOf': [
    'What to take of a sheet with columns for several cylinders (intake 1 cfm, intake 2 cfm): mean, every port as their mean; or each, every cylinder its own, and every cylinder is then computed. Left out: mean.',
  ],
  'heads.bench': ['How the heads were flowed.'],
  'heads.bench.name': [
    'Which bench it was. Two benches differ by 3 to 8 %, so that a change whose sheet comes from another gains less surely. Left out: one bench, where the depressions are alike.',
    'shop bench',
  ],
  'heads.bench.depression': ['Test depression the flow refers to.', '28 inH2O'],
  'heads.bench.fixture': ['Bore of the fixture the head stood on.', '3.960 in'],
  'heads.bench.exhaustPipe': ['Whether the exhaust was flowed with a pipe stub.'],
  'heads.intake': ['The intake side of one cylinder.'],
  'heads.intake.valves': ['Number of intake valves in one cylinder.', 1],
  'heads.intake.valve': ['Head diameter of one intake valve.', '2.02 in'],
  'heads.intake.stem': STEM,
  'heads.intake.throat': ['Diameter of the throat below the seat.', '1.80 in'],
  'heads.intake.flow': [SIDE_FLOW, 'intake-flow.csv', [{ lift: '0.100 in', flow: '66 cfm' }]],
  'heads.intake.flow.lift': LIFT,
  'heads.intake.flow.flow': ['Flow of one cylinder.', '190 cfm'],
  'heads.intake.flowMultiplier': FLOW_MULTIPLIER,
  'heads.intake.reverseFlow': [REVERSE_FLOW, '85 %'],
  'heads.intake.portLength': [PORT_LENGTH, '5.0 in'],
  'heads.intake.portArea': [PORT_AREA, '2.35 in2'],
  'heads.intake.portVolume': [PORT_VOLUME, '195 cc'],
  'heads.intake.minimumArea': ['Smallest cross-section of the port.', '2.10 in2'],
  'heads.intake.areaRatio': AREA_RATIO,
  'heads.exhaust': ['The exhaust side of one cylinder.'],
  'heads.exhaust.valves': ['Number of exhaust valves in one cylinder.', 1],
  'heads.exhaust.valve': ['Head diameter of one exhaust valve.', '1.60 in'],
  'heads.exhaust.stem': STEM,
  'heads.exhaust.throat': ['Diameter of the throat below the seat.', '1.36 in'],
  'heads.exhaust.flow': [SIDE_FLOW, 'exhaust-flow.csv', [{ lift: '0.100 in', flow: '54 cfm' }]],
  'heads.exhaust.flow.lift': LIFT,
  'heads.exhaust.flow.flow': ['Flow of one cylinder.', '143 cfm'],
  'heads.exhaust.flowMultiplier': FLOW_MULTIPLIER,
  'heads.exhaust.reverseFlow': [REVERSE_FLOW, '90 %'],
  'heads.exhaust.portLength': [PORT_LENGTH, '3.0 in'],
  'heads.exhaust.portArea': [PORT_AREA, '1.65 in2'],
  'heads.exhaust.portVolume': [PORT_VOLUME, '81 cc'],
  'heads.exhaust.minimumArea': ['Smallest cross-section of the port.', '1.45 in2'],
  'heads.exhaust.areaRatio': AREA_RATIO,
};
