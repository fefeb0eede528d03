/** What every code means and what to do: the one table that the guide's page of messages is made of. */

type Entry = readonly [code: string, means: string, todo: string];

/** Warnings: the answer stands, with a doubt. */
export const WARNINGS: readonly Entry[] = [
  [
    'above-minimum-area',
    'A flow sheet comes near what the smallest section can pass.',
    'Check area, depression and reading.',
  ],
  [
    'bore-fixture',
    'The head was flowed on a bore of another size.',
    'Flow it on a fixture of the engine’s bore, or expect 1 to 3 %.',
  ],
  ['budget-unknown', 'A change has no cost, so the budget can’t count it.', 'State `cost`.'],
  [
    'calibration-doubtful',
    'A calibrated knob ended where no engine has it.',
    'Look at sheet, standard and file before trusting it.',
  ],
  ['calibration-moved', 'A field that was calibrated has been changed since.', 'Calibrate again.'],
  ['carburetor-basis', 'A carburetor’s rating can be read in two ways.', 'State `barrels` and `ratedAt`.'],
  [
    'card-ratio',
    'Valve lifts of the card are taken at the rockers fitted.',
    'State `cam.cardRatio` before trying others.',
  ],
  ['columns-ignored', 'A sheet has columns that were not used.', 'Rename them if they should count.'],
  [
    'compression-disagrees',
    'Stated compression and volumes differ; far apart it is a problem.',
    'Measure again; the volumes are used.',
  ],
  [
    'correction-assumed',
    'No correction standard is stated.',
    'State `correction`: J607 and J1349 are 4 to 5 % apart.',
  ],
  [
    'curtain-coefficient',
    'A flow sheet gives a coefficient no valve has at that lift.',
    'Check valve size, number of valves and depression.',
  ],
  [
    'depression-doubtful',
    'The sheet looks as if taken at another depression.',
    'State `heads.bench.depression`.',
  ],
  ['detonation', 'The fuel detonates at some speeds.', 'Less spark or compression, or more octane.'],
  [
    'efficiency-high',
    'The gas does more work than the ideal cycle of its compression ratio.',
    'Doubt that speed: report it with the file.',
  ],
  ['every-cylinder-marched', 'One cylinder could not stand for all.', 'Nothing; it took longer.'],
  ['exhaust-over-intake', 'Exhaust flow is unusual beside intake flow.', 'Check both columns.'],
  ['field-unused', 'A field does nothing beside others.', 'Take it out, or what overrides it.'],
  [
    'filling-odd',
    'Filling is below 10 % or above 140 %.',
    'Check sizes of induction and cam, or leave those speeds out.',
  ],
  [
    'flow-above-limit',
    'A sheet flows more than its valve or port can; well above it is a problem.',
    'Check areas, depression and units.',
  ],
  ['flow-falls', 'Flow falls with lift.', 'Measure that point again.'],
  [
    'flow-temperature',
    'Nearly as much gas flows back past a valve as through it.',
    'Don’t use that temperature; look at cam and exhaust.',
  ],
  [
    'heard-knock',
    'Knock was heard where none is forecast, or the other way about.',
    'Look at timing, mixture and fuel of that pull.',
  ],
  ['knock-limited', 'Knock holds the spark back.', 'More octane would give the stated torque.'],
  ['lash-band', 'A lash is unusual for its lifters.', 'Check `cam.lifter` and the lash.'],
  ['lift-beyond-sheet', 'The valve lifts beyond the sheet; the last flow is held.', 'Flow the head higher.'],
  ['lift-high', 'A valve lifts more than 0.45 of its diameter.', 'Check lobe lift and rocker ratio.'],
  [
    'too-many-steps',
    'A part is so small that a cycle would take over ten times the usual steps; that speed has no figures.',
    'Give the part that is named more volume or length.',
  ],
  [
    'lost',
    'The gas moved too fast to follow at a speed, which has no figures.',
    'Leave that speed out, or look at the ports.',
  ],
  ['low-for-depression', 'A sheet flows less than is usual at its depression.', 'Check the depression.'],
  [
    'muffler-loss',
    'A muffler is rated to pass more than its pipes can.',
    'Check the rating, and `exhaust.box.pipe` or the collector.',
  ],
  ['no-torque', 'Friction and pumping take all the engine makes.', 'Leave those speeds out.'],
  [
    'not-converged',
    'A cycle did not settle: its figures are means of many.',
    'Take the scatter shown with it for the error of that speed.',
  ],
  [
    'octane-short',
    'A change asks for more octane than the fuel has.',
    'Count the fuel with it, or leave it.',
  ],
  [
    'other-bench',
    'The heads of a change were flowed on another bench.',
    'Flow both on one; `heads.bench.name` says that it was one.',
  ],
  ['pair-impossible', 'Two changes can’t be made together.', 'Nothing; the pair is left out.'],
  [
    'peak-pressure',
    'Cylinder pressure passes what parts bear.',
    'Less compression or spark; check both in the file.',
  ],
  [
    'piston-speed',
    'Mean piston speed is beyond ordinary parts.',
    'Forged parts and a limiter, or fewer revolutions.',
  ],
  [
    'ports-small',
    'Ports that nobody measured are small for the speed the engine is meant for.',
    'Give its flow sheet, or `heads.intake.valve` and `heads.ports`.',
  ],
  ['port-chokes', 'The port passes hardly more than its valve.', 'Check the port’s area.'],
  [
    'residual-high',
    'More than half of the charge is burned gas.',
    'Expect misfires: less overlap, or leave those speeds out.',
  ],
  ['unknown-skipped', 'An unknown could not be drawn for this engine.', 'Nothing; the spread leaves it out.'],
  [
    'wall-heat-high',
    'The walls take more than 60 % of the fuel’s heat.',
    'Check `heat.multiplier`, bore and speed.',
  ],
  [
    'beyond-limit',
    'A forecast breaks a limit that the file states.',
    'Read what it breaks: [Limits](combination-file.md#limits).',
  ],
  [
    'weak-signal',
    'An engine hardly draws through its carburetor, and what that costs is not in the model.',
    'Look at a smaller one, and try both on the dyno.',
  ],
  ['weather-correction', 'The correction is large.', 'Use a sheet of an ordinary day.'],
];

/** Problems of text and fields of combinations and changes files. */
export const FILE_PROBLEMS: readonly Entry[] = [
  ['alias', 'An anchor or alias of YAML.', 'Write the value in each place.'],
  ['decimal-comma', 'A decimal comma.', 'Write a point.'],
  ['directive', 'A YAML directive.', 'Take the line with % out.'],
  ['duplicate-field', 'A field given twice.', 'Keep one.'],
  ['field-name', 'A name that is not a word, or that the program keeps for itself.', 'Take it out.'],
  ['file-empty', 'Nothing in the file.', '`valvetide init` writes a start.'],
  ['file-too-long', 'More text or fields than any engine has.', 'Cut what is not the engine.'],
  [
    'inconsistent',
    'Values that are possible alone and impossible together.',
    'Check the fields that the message names.',
  ],
  ['missing', 'A field that every engine must state.', 'State it.'],
  ['more-problems', 'More problems than are listed one by one.', 'Mend the first ones.'],
  ['name-twice', 'Two changes of one name.', 'Rename one.'],
  [
    'nothing-allowed',
    'No build of a shelf keeps its limits.',
    'Raise a limit, or let a group stay as it is.',
  ],
  ['no-arithmetic', 'A value that can’t be scaled or added to.', 'Set it.'],
  ['no-edits', 'A change that changes nothing.', 'Give it `set`, `scale` or `add`.'],
  [
    'no-effect',
    'A change after which the engine is the same; left out where others have an effect.',
    'Look which field decides.',
  ],
  ['no-value', 'No value to scale or add to.', 'Set it.'],
  ['not-a-combination', 'No sections.', 'Begin with `engine:`.'],
  ['not-a-quantity', 'No number with its unit.', 'Write it like the example.'],
  ['not-changes', 'No list under `changes:`.', 'Write one.'],
  ['not-finite', 'No finite number.', 'Write the number.'],
  ['out-of-range', 'Outside what any engine has.', 'Check unit and digits.'],
  ['set-twice', 'One field changed in two ways.', 'Keep one.'],
  ['several-documents', 'More than one document.', 'One engine a file.'],
  ['syntax', 'No readable YAML.', 'See the place named.'],
  ['tag', 'A tag of YAML.', 'Write the value alone.'],
  ['too-deep', 'Nested deeper than any file.', 'Flatten it.'],
  ['unit-mismatch', 'A unit of something else.', 'Use one of those named.'],
  ['unit-missing', 'A number without its unit.', 'Write the unit.'],
  ['unit-unknown', 'A unit that is not known.', 'Use one of those named.'],
  ['unknown-field', 'No such field.', 'See the nearest name.'],
  ['unknown-path', 'No such field of a combination.', 'See the nearest path.'],
  ['unknown-word', 'None of the words a field takes.', 'Use one of those named.'],
  ['value-missing', 'A name without a value.', 'Write its value or take it out.'],
  ['wrong-kind', 'A value of the wrong kind.', 'Write it like the example.'],
];

/** Problems of the engine that a file describes. */
export const ENGINE_PROBLEMS: readonly Entry[] = [
  [
    'advance-disagrees',
    'A cam advance that does not go with separation and centreline.',
    'Leave one of the three out.',
  ],
  [
    'balance',
    'A balance tube where there are not two collectors, or two runners, to join.',
    'Check `exhaust.groups`, or `pairs` and `at` of `induction.balance`.',
  ],
  ['banks', 'Banks that don’t hold each cylinder once.', 'List each cylinder once.'],
  [
    'bore-slip',
    'A bore or area that no part of such an engine has, and that would be usual in another unit.',
    'Write the unit the message asks for.',
  ],
  [
    'by-cylinder',
    'Values by cylinder, not one for each.',
    'Give one a cylinder, in the order of their numbers.',
  ],
  [
    'calibration-correlation',
    'A table that cannot be one of correlations.',
    'Let `calibrate` write the section.',
  ],
  ['calibration-knobs', 'Knobs that do not exist.', 'Let `calibrate` write the section.'],
  ['cam-twice', 'A card beside a table of the lobe.', 'Keep one.'],
  [
    'card-impossible',
    'Two lines of a cam card that no lobe has together.',
    'Read the card again; the message says by how much.',
  ],
  ['compression-impossible', 'Volumes that give an impossible compression.', 'Check the volumes.'],
  ['compression-missing', 'Neither compression nor chamber volume.', 'State one.'],
  ['deck', 'A piston in the head.', 'Check deck and gasket.'],
  [
    'depression-contradicts',
    'A sheet speaks of another depression than the file.',
    'State `heads.bench.depression`.',
  ],
  ['dew-point', 'A dew point above the air’s temperature.', 'Check both.'],
  [
    'divider',
    'An opening between two plenums, and not two of them.',
    'Check `manifold`, or `induction.groups`.',
  ],
  ['dome', 'A dome larger than the room around it.', 'Check the volumes.'],
  ['duration-order', 'Durations that don’t shrink with lift.', 'Check the card.'],
  ['duration-slip', 'A duration that no cam has.', 'Is it in crank degrees, at the lift named?'],
  [
    'firing-intervals',
    'Intervals that don’t make two turns, or not one a cylinder.',
    'They add up to 720 deg.',
  ],
  ['firing-order', 'An order that doesn’t hold each cylinder once.', 'List each cylinder once.'],
  ['flow-lift', 'Lifts that don’t rise.', 'Put points in order.'],
  ['flow-none', 'No flow at an open valve.', 'Leave the point out.'],
  ['flow-points', 'Fewer than two points of flow.', 'Give more.'],
  ['fuel-atoms', 'Atoms that don’t burn.', 'Check the atoms.'],
  ['fuel-heat', 'A heating value that does not go with the atoms.', 'Check unit and digits.'],
  ['fuel-unknown', 'A fuel that is not known.', 'Use one named, or describe your own.'],
  ['gasket-bore', 'A gasket smaller than the bore.', 'Check both.'],
  [
    'groups',
    'Groups of a header or of plenums that don’t hold each cylinder once.',
    'List each cylinder once.',
  ],
  ['humidity-twice', 'Humidity said in two ways.', 'Keep one.'],
  ['lash', 'Lash and bending that leave the valve shut.', 'Check lash and lift.'],
  [
    'lift-disagrees',
    'Valve lift that is not lobe lift times ratio.',
    'State `cam.cardRatio`, or correct one.',
  ],
  [
    'lift-slip',
    'A lobe that would lift the valve by more than half its diameter.',
    'Is it the valve’s lift?',
  ],
  ['lobe-lift', 'A lobe lower than the lift a duration was taken at.', 'Check lift and unit.'],
  ['metering-twice', 'Carburetor and throttle.', 'Keep one.'],
  ['mixture-twice', 'Lambda and air-fuel ratio.', 'Keep one.'],
  ['muffler', 'A muffler by both flow and back-pressure, or by neither.', 'Give one.'],
  [
    'pipe-contradicts',
    'A sheet whose header contradicts what the file says of the pipe on the exhaust.',
    'Check `heads.bench.exhaustPipe`.',
  ],
  ['pipe-twice', 'Inside and outside of one tube.', 'Keep one.'],
  ['pipe-wall', 'A wall too thick for its tube.', 'Check both.'],
  ['port-area', 'A smallest area larger than the mean.', 'Check both.'],
  [
    'primary-lengths',
    'Lengths of primaries, not one a cylinder, or beside a common one.',
    'Give one a cylinder, or one for all.',
  ],
  ['primary-slip', 'A primary much smaller, or much larger, than its valve.', 'Check the unit.'],
  [
    'primary-step',
    'Steps of a primary out of order, without a size or behind its end.',
    'List them from the flange on.',
  ],
  [
    'restrictor',
    'A restrictor in front of throttles that stand in the open.',
    'Give the throttles their size.',
  ],
  ['rod', 'A rod that no such stroke has.', 'Check rod and stroke.'],
  [
    'secondary',
    'First merges that don’t suit cylinders and collectors.',
    'Check `exhaust.secondary.groups`.',
  ],
  ['separation-disagrees', 'A separation that does not go with the centrelines.', 'Leave one out.'],
  ['spacer', 'Holes of a spacer and an inlet duct, one behind the other.', 'Give the whole way as the duct.'],
  ['stem', 'A stem too thick for its valve.', 'Check both.'],
  ['throat', 'A throat not smaller than its valve.', 'Check both.'],
  ['timing', 'A way of timing without its figures, or two.', 'Give what the message names.'],
  ['valve-count', 'Valves that don’t add up.', 'Check the numbers.'],
  ['valves-too-large', 'Valves that don’t fit the bore.', 'Check sizes and units.'],
  ['vapour-pressure', 'More vapour than the air can hold.', 'Check unit and temperature.'],
  ['venturi', 'A venturi that does not go with the rating.', 'Check both, and the number of barrels.'],
  ['volume-missing', 'A volume that is of no use alone.', 'State `chamber.volume`.'],
];

/** Problems of flow sheets, lift tables and dyno sheets. */
export const SHEET_PROBLEMS: readonly Entry[] = [
  ['decimal-mixed', 'Decimal commas and points in one sheet.', 'Use one.'],
  ['humidity-unclear', 'A humidity of 1 or less without unit.', 'Write it in %.'],
  [
    'pressure-unclear',
    'A sheet of pressures leaves open what can’t be guessed, or is of another engine.',
    'Write the line that it asks for.',
  ],
  ['power-torque', 'Power that is not torque times speed.', 'Check units and columns.'],
  ['sheet-angle', 'Angles that don’t rise, or span too much.', 'Put rows in order.'],
  ['sheet-binary', 'No text.', 'Save it as CSV.'],
  [
    'sheet-cells',
    'A row with more cells than the header.',
    'Separate cells by semicolons where commas are decimal.',
  ],
  [
    'sheet-columns',
    'A column that is missing, stands twice or is not known.',
    'Name columns like the example.',
  ],
  ['sheet-empty', 'No rows.', 'Save it again.'],
  ['sheet-flow', 'Points that cannot be flow.', 'Leave blank what was not measured.'],
  ['sheet-lift', 'Lifts that don’t rise, or a row without.', 'Put rows in order.'],
  ['sheet-lobe', 'A table that shows no whole lobe.', 'Carry it on to below 10 % of its lift.'],
  ['sheet-missing', 'A sheet that was not found.', 'Put it beside its file.'],
  ['sheet-number', 'A cell that is no number.', 'Correct it or leave it blank.'],
  ['sheet-outside', 'A sheet named by a place of one machine.', 'Name it as seen from its file.'],
  ['sheet-pulls', 'More pulls than are read.', 'Split the sheet.'],
  ['sheet-quotes', 'A quote that doesn’t close.', 'Close it.'],
  ['sheet-speed', 'Speeds that rise and fall.', 'Separate pulls by blank lines or a column.'],
  ['sheet-too-long', 'More rows or characters than are read.', 'Keep the pull, cut the rest.'],
  ['standard-contradicts', 'Sheet and command name different standards.', 'Keep one.'],
  ['standard-missing', 'No correction standard.', 'Write `# standard: J607`, or say --standard.'],
  ['standard-twice', 'Two standards.', 'One a sheet.'],
  ['standard-unclear', 'A standard that can be read in two ways.', 'Write J607 or J1349.'],
  ['standard-unknown', 'A standard that is not known.', 'Write J607, J1349 or none.'],
];

/** The page, from the table. */
export function messagesPage(): string {
  const table = (entries: readonly Entry[]): string =>
    `| code | what it means | what to do |\n| ---- | ------------- | ---------- |\n${entries
      .map(
        ([code, means, todo]) =>
          `| \`${code}\` | ${means.replaceAll('’', "'")} | ${todo.replaceAll('’', "'")} |\n`,
      )
      .join('')}`;
  return `# Messages

Every problem and every warning has a code that stays the same, for scripts and for this page. \`--json\` shows it; on a terminal the words
say the same, with file, line, field and a hint. A problem stops the command (exit code 3); a warning never does, unless \`--strict\` asks.

<!-- Made from tests/docs/messageTable.ts: change it there. -->

## Warnings

${table(WARNINGS)}
## Problems of combination and changes files

${table(FILE_PROBLEMS)}
## Problems of the engine described

${table(ENGINE_PROBLEMS)}
## Problems of sheets

${table(SHEET_PROBLEMS)}`;
}
