/** What builders write where the file has other names: each is answered with what to write. */
import { describe, expect, it } from 'vitest';
import { problemLine } from '../../src/combination/problem.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { fileWith } from './files.ts';

function answers(section: string, text: string): string {
  const read = readCombination(fileWith({ [section]: text }), { file: 'e.yaml' });
  return read.ok ? 'accepted' : read.problems.map(problemLine).join('\n');
}

describe('a word of the trade', () => {
  it.each([
    ['exhaust', '{ layout: tri-y }', 'exhaust.layout is not a field', 'secondary: {', 'groups: ['],
    ['exhaust', '{ headers: { length: 34 in } }', 'exhaust.headers is not a field', 'primary: {'],
    ['cam', '{ type: dohc }', 'cam.type is not a field', 'camshafts: 2', 'valvetrain.type'],
    ['cam', '{ Lobe Separation: 108 deg }', 'is not a field', 'write separation'],
    ['valvetrain', '{ rocker ratio: 1.5 }', 'is not a field', 'intakeRatio'],
    ['induction', '{ carburetor: { flow: 600 cfm } }', 'carburetor.flow is not a field', 'rating: 750 cfm'],
    ['induction', '{ itb: 46 mm }', 'is not a field', 'individual-throttles'],
    [
      'induction',
      '{ throttleBodies: 46 mm }',
      'throttleBodies is not a field',
      'throttle: { diameter',
      'count: 4',
    ],
    ['exhaust', '{ collector: 4-1 }', "or the collector's sizes, such as {", 'groups: [['],
    ['engine', '{ rated: 6000 rpm }', 'is not a field', 'ratedSpeed'],
    ['chamber', '{ plug: center }', "got 'center'", 'write central'],
    ['exhaust', '{ style: 4-2-1 }', "must be one of headers, cast; got '4-2-1'", 'secondary: {'],
    ['exhaust', '{ secondary: none }', "got 'none'", 'leave it out'],
    ['exhaust', '{ h-pipe: { length: 18 in } }', 'exhaust.h-pipe is not a field', 'balance: {'],
    ['exhaust', '{ balance: x-pipe }', "got 'x-pipe'", 'balance: {'],
    ['exhaust', '{ collector: megaphone }', 'needs', 'exit: 3.5 in'],
    ['exhaust', '{ collector: { taper: 4 deg } }', 'exhaust.collector.taper is not a field', 'exit: 3.5 in'],
    ['exhaust', '{ silencer: chambered }', 'exhaust.silencer is not a field', 'write muffler'],
    ['exhaust', '{ tailpipe: { length: 40 in } }', 'exhaust.tailpipe is not a field', 'exhaust.box.pipe'],
    ['exhaust', '{ muffler: glasspack }', 'needs', 'write straight-through'],
    [
      'exhaust',
      '{ muffler: { flow: 300 cfm, volume: 5 l } }',
      'muffler.volume is not a field',
      'exhaust.box',
    ],
    ['exhaust', '{ muffler: chambered, box: { kind: perforated } }', "got 'perforated'", 'straight-through'],
    [
      'exhaust',
      '{ primary: { steps: [{ at: 12 in, diameter: 2 in }] } }',
      'steps.0.at is not a field',
      'after: 12 in',
    ],
    ['exhaust', '{ primary: { length: [30 in, 31 in] } }', 'needs a length', 'exhaust.primary.lengths'],
    ['mixture', '{ lambda: [0.86, 0.88] }', 'mixture.lambda needs', 'mixture.differences'],
    ['mixture', '{ lambdas: [0.86, 0.88] }', 'mixture.lambdas is not a field', 'mixture.differences'],
    ['mixture', '{ airFuelRatio: 0.87 }', 'must be at least 3', 'a lambda? write lambda: 0.87'],
    ['cam', '{ vvt: true }', 'cam.vvt is not a field', 'cam.intake.centreline: {'],
    ['cam', '{ cardRatio: [1.5, 1.6] }', 'cam.cardRatio needs', 'cam.exhaust.cardRatio'],
    ['valvetrain', '{ ratio: 1.5 }', 'valvetrain.ratio is not a field', 'intakeRatio and exhaustRatio'],
    ['burn', '{ advance: { 3000 rpm: 34 deg } }', 'burn.advance is not a field', 'burn.spark: {'],
    ['heads', '{ valvesPerCylinder: 2, flow: [a.csv, b.csv] }', 'needs a text', 'heads.intake.flow'],
    ['induction', '{ manifold: itb }', "got 'itb'", 'individual-throttles'],
    ['fuel', '100LL', 'not a fuel this program knows', '100LL has a motor octane of about 100'],
    ['fuel', 'avgas 100LL', 'not a fuel this program knows', 'race-100 has 95 and race-110 107'],
    ['fuel', 'LPG', 'not a fuel', 'write propane'],
    ['fuel', 'premium', 'not a fuel', 'pump-87 to pump-93'],
    ['fuel', 'race-gasoline', 'not a fuel', 'race-100, race-110 or race-116'],
    ['heads', '{ porting: as-cast }', 'heads.porting is not a field', 'ports: as-cast'],
    ['fuel', 'petrol 95 RON', 'not a fuel', 'next to that of pump-91'],
    ['fuel', 'diesel', 'fuel speaks of a diesel, which is not forecast', 'four-strokes with pistons'],
    ['engine', '{ cycle: two-stroke }', 'engine.cycle speaks of a two-stroke', 'four-strokes with pistons'],
    ['engine', '{ type: rotary }', 'engine.type speaks of a rotary engine', 'not forecast'],
    ['valvetrain', '{ type: sleeve-valve }', "got 'sleeve-valve'", 'sleeve valves: not forecast'],
    ['valvetrain', '{ type: sidevalve }', "got 'sidevalve'", 'valves beside the cylinder: not forecast'],
    ['chamber', '{ compression: 6, shape: l-head }', "got 'l-head'", 'valves beside the cylinder'],
    ['induction', '{ carburetor: 34 mm }', 'fields of its own', 'write carburetor: { venturi: 34 mm }'],
    ['induction', '{ carburetor: { bore: 34 mm } }', 'bore is not a field', 'of one barrel venturi: 34 mm'],
    ['induction', '{ carburetor: { size: 34 mm } }', 'size is not a field', 'of one barrel venturi: 34 mm'],
    [
      'induction',
      '{ carburetor: [{ rating: 390 cfm }, { rating: 250 cfm }] }',
      'induction.carburetor needs fields of its own',
      'the mean rating and count: 2',
    ],
    ['induction', '{ carburetor: { rating: [390 cfm, 250 cfm] } }', 'rating needs', 'the mean rating'],
    ['cam', '{ lift: 0.45 in }', 'cam.lift is not a field', 'lobeLift'],
    ['cam', '{ intake: 284 deg }', 'cam.intake needs fields of its own', 'checkedAt: 0.006 in'],
    ['engine', "{ cylinders: '4' }", "needs a plain number, got '4'", 'write 4 without quotes'],
    ['camshaft', '{ separation: 108 deg }', 'camshaft is not a field', 'write cam'],
    ['cam', '{ lsa: 108 deg }', 'cam.lsa is not a field', 'write separation'],
    ['cam', '{ icl: 104 deg }', 'cam.icl is not a field', 'intake: { centreline'],
    ['cam', '{ intake: { duration: 268 deg } }', 'cam.intake.duration is not a field', 'checkedAt: 0.006 in'],
    ['cam', '{ exhaust: { at053: 236 deg } }', 'cam.exhaust.at053 is not a field', 'advertised: 244 deg'],
    ['engine', '{ bankAngle: 45 deg }', 'engine.bankAngle is not a field', 'firingIntervals: [315 deg'],
    ['exhaust', '{ style: 2-into-1 }', "must be one of headers, cast; got '2-into-1'", 'write headers'],
    ['cam', '{ exhaust: { at1mm: 236 deg } }', 'cam.exhaust.at1mm is not a field', 'checkedAt: 1 mm'],
    ['valvetrain', '{ lash: 0.016 in }', 'valvetrain.lash is not a field', 'intakeLash and exhaustLash'],
    ['valvetrain', '{ type: bucket }', "got 'bucket'", 'write direct-acting'],
    ['chamber', '{ compression: 9, gasket: 0.04 in }', 'chamber.gasket is not a field', 'gasketThickness'],
    ['correction', 'STP', "got 'STP'", 'STP and STD are J607 (60 F, 29.92 inHg dry): write J607'],
    ['cam', '{ intake: { duration@1mm: 252 deg } }', 'duration@1mm is not a field', 'checkedAt: 1 mm'],
    ['chamber', '{ cr: 10.5 }', 'chamber.cr is not a field', 'write compression: 10.5'],
    [
      'heads',
      '{ valvesPerCylinder: 2, valves: 16 }',
      'heads.valves is not a field',
      'write valvesPerCylinder: 4',
    ],
    [
      'heads',
      '{ valvesPerCylinder: 2, ports: ported }',
      "got 'ported'",
      'write fully-ported or bowls-blended',
    ],
    [
      'induction',
      '{ trumpets: 60 mm }',
      'induction.trumpets is not a field',
      'throttleAt: 120 mm, mouth: bell',
    ],
    ['limits', '{ revs: 9800 rpm }', 'limits.revs is not a field', 'write redline: 6800 rpm'],
    [
      'exhaust',
      '{ primary: 38 mm x 620 mm }',
      'fields of its own',
      'write primary: { diameter: 38 mm, length: 620 mm }',
    ],
    [
      'exhaust',
      '{ collector: 2 in x 0.065 in x 18 in }',
      "needs 'none'",
      'write collector: { diameter: 2 in, wall: 0.065 in, length: 18 in }',
    ],
    ['correction', 'DIN', "got 'DIN'", '1 to 2 % below J607'],
    ['correction', 'ISO 1585', "got 'ISO 1585'", 'write J1349'],
    ['correction', 'SAE', "got 'SAE'", '4 to 5 % apart'],
    ['units', 'metric', "got 'metric'", 'write si'],
    ['fuel', 'RON 95', "not a fuel this program knows: 'RON 95'", 'next to that of pump-91, 96'],
    ['fuel', 'pump 93', "'pump 93'", 'did you mean pump-93?'],
    ['fuel', 'pump-95', "'pump-95'", 'next to that of pump-91, 96'],
    ['forced-induction', '{}', 'speaks of forced induction, which is not forecast', 'leave the field out'],
    ['induction', '{ nitrous: { shot: 100 hp } }', 'speaks of nitrous oxide', 'leave the field out'],
  ])('%s: %s', (section, text, ...parts) => {
    const line = answers(section, text);
    for (const part of parts) expect(line).toContain(part);
  });
});

describe('a section written as one size', () => {
  it.each([
    ['exhaust', 'primary', '1.75 in', 'primary: { diameter: 1.75 in }'],
    ['exhaust', 'collector', '3 in', 'collector: { diameter: 3 in }'],
    ['exhaust', 'secondary', '2 in', 'secondary: { diameter: 2 in }'],
    ['exhaust', 'balance', '2 in', 'balance: { diameter: 2 in }'],
    ['exhaust', 'muffler', '1.2 psi', 'muffler: { backPressure: 1.2 psi }'],
    ['exhaust', 'muffler', '600 cfm', 'muffler: { flow: 600 cfm }'],
    ['induction', 'airbox', '9 l', 'airbox: { volume: 9 l }'],
    ['induction', 'airCleaner', '700 cfm', 'airCleaner: { flow: 700 cfm }'],
    ['induction', 'carburetor', '600 cfm', 'carburetor: { rating: 600 cfm }'],
    ['induction', 'divider', '2 in2', 'divider: { opening: 2 in2 }'],
    ['induction', 'restrictor', '25 mm', 'restrictor: { bore: 25 mm }'],
    ['induction', 'spacer', '1 in', 'spacer: { height: 1 in }'],
    ['induction', 'throttle', '70 mm', 'throttle: { diameter: 70 mm }'],
  ])(
    '%s.%s: %s is answered with the field that the size is, which the file then takes',
    (section, field, size, now) => {
      expect(answers(section, `{ ${field}: ${size} }`)).toContain(`(write ${now})`);
      expect(answers(section, `{ ${now} }`)).not.toContain('needs');
    },
  );

  it('of another kind is left to the message alone', () => {
    expect(answers('induction', '{ airbox: 9 in }')).not.toContain('write');
  });
});

describe('a name that every object has', () => {
  it('is no word of the trade', () => {
    expect(answers('exhaust', '{ toString: 1 }')).toContain('known here: ');
    expect(answers('exhaust', '{ muffler: toString }')).toContain('needs');
  });
});

describe('a slip that another figure betrays', () => {
  it('is a compression ratio, told with the chamber that would give it', () => {
    const chamber = '{ compression: 10.8, volume: 63 cc, deck: 0.012 in, gasketThickness: 0.040 in }';
    const read = readCombination(
      fileWith({ engine: '{ bore: 3.78 in, stroke: 3.54 in, cylinders: 6 }', chamber }),
      { file: 'e.yaml' },
    );
    const line = read.ok ? '' : read.problems.map(problemLine).join();
    expect(line).toContain(
      'chamber.compression is 10.8, but the volumes give 9.84 (10.8 would take a chamber of',
    );
    const cc = /a chamber of ([\d.]+) cc/u.exec(line)?.[1] ?? 'none';
    const mended = readCombination(
      fileWith({
        engine: '{ bore: 3.78 in, stroke: 3.54 in, cylinders: 6 }',
        chamber: chamber.replace('63', cc),
      }),
      { file: 'e.yaml' },
    );
    expect(mended.ok && mended.value.chamber.compressionRatio).toBeCloseTo(10.8, 1);
  });

  it('is a sheet of 28 inH2O that the file says is of 10', () => {
    const heads = (depression: string): string =>
      answers(
        'heads',
        `{ valvesPerCylinder: 2, bench: { depression: ${depression} }, intake: { valve: 1.84 in, flow: [{ lift: 0.2 in, flow: 130 cfm }, { lift: 0.5 in, flow: 245 cfm }] } }`,
      );
    expect(heads('10 inH2O')).toContain('the file gives 10 inH2O: is this sheet of 28 inH2O?');
    expect(heads('28 inH2O')).toBe('accepted');
  });
});

describe('what nothing would have told', () => {
  it.each([
    [
      '{ groups: [[1, 3, 5, 7], [2, 4, 6, 8]], collector: { length: 12 in }, balance: { at: 40 in } }',
      'exhaust.balance.at lies behind the end of the collectors, 12 in',
    ],
    ['{ box: { volume: 5 l } }', 'exhaust.box has no word of what the muffler loses (give exhaust.muffler: '],
  ])('%s', (text, part) => expect(answers('exhaust', text)).toContain(part));

  it('is a rating that its pipes alone can not have', () => {
    const read = readCombination(
      fileWith({ exhaust: '{ collector: { inside: 60 mm }, muffler: { flow: 900 cfm } }' }),
      { file: 'e.yaml' },
    );
    const warning = read.ok ? read.value.warnings.find(({ code }) => code === 'muffler-loss') : undefined;
    expect(warning?.message).toContain('pipes of these sizes alone take');
  });
});
