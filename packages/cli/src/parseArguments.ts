/** The words after a command's name to its operands and flags. */
import yargs, { type Argv } from 'yargs';
import { type CommandFailure, usageFailure } from './commandFailure.ts';
import { COMMON_OPTIONS, type CommandSpec, type Flags, type OptionSpec } from './commandSpec.ts';
import { plainShort } from './render/plain.ts';
import { suggest } from './suggest.ts';

export interface Arguments {
  readonly operands: readonly string[];
  readonly flags: Flags;
}

export async function parseArguments(command: CommandSpec, words: readonly string[]): Promise<Arguments> {
  const options = [...command.options, ...COMMON_OPTIONS];
  const { _: operands, ...values } = await parserFor(command, options).parseAsync([...words]);
  const most = command.mostOperands ?? (command.operand === '' ? 0 : 1);
  if (operands.length > most) throw tooMany(command, String(operands[most]));
  const given = new Map<string, unknown>(Object.entries(values));
  for (const { name, value, many, choices, choicesMean } of options) {
    // Of two values one would be dropped in silence.
    if (value !== undefined && many !== true && texts(given.get(name)).length > 1)
      throw usageFailure(command.name, `--${name} is given twice, and only one counts`);
    const wrong = texts(given.get(name)).find((value) => choices?.includes(value) === false);
    if (choices === undefined || wrong === undefined) continue;
    const near = suggest(wrong, choices);
    const hint = near === undefined ? choicesMean : `did you mean ${near}?`;
    throw usageFailure(
      command.name,
      `--${name} is one of ${choices.join(', ')}, not ${plainShort(wrong)}`,
      hint,
    );
  }
  const color = last(given.get('color'));
  return {
    operands: operands.map(String),
    flags: {
      text: (name) => texts(given.get(name))[0],
      texts: (name) => texts(given.get(name)),
      on: (name) => last(given.get(name)) === true,
      color: typeof color === 'boolean' ? color : undefined,
    },
  };
}

/** An operand too many; a file that an option takes is told where it goes. */
function tooMany(command: CommandSpec, operand: string): CommandFailure {
  const takesIt = ({ name, value }: OptionSpec): boolean =>
    /\.(csv|tsv|txt)$/i.test(operand)
      ? value === 'SHEET'
      : /\.(ya?ml|json)$/i.test(operand) && (name === 'changes' || name === 'shelf');
  const shown = plainShort(operand);
  const ways = command.options.filter(takesIt).map(({ name }) => `--${name} ${shown}`);
  const hint = ways.length === 0 ? undefined : `did you mean ${ways.join(' or ')}?`;
  return usageFailure(command.name, `${command.name} does not take ${shown}`, hint);
}

/** An option given several times comes as a list. */
function last(value: unknown): unknown {
  return Array.isArray(value) ? value.at(-1) : value;
}

function texts(value: unknown): readonly string[] {
  return [value].flat().filter((item) => typeof item === 'string');
}

function parserFor(command: CommandSpec, options: readonly OptionSpec[]): Argv<object> {
  let parser: Argv<object> = yargs()
    .exitProcess(false)
    .help(false)
    .version(false)
    .detectLocale(false)
    .parserConfiguration({
      'camel-case-expansion': false,
      'dot-notation': false,
      'parse-numbers': false,
      'parse-positional-numbers': false,
    });
  for (const { name, short, value } of options) {
    const alias = short === undefined ? {} : { alias: short };
    parser =
      value === undefined
        ? parser.option(nameForParser(name), { type: 'boolean', ...alias })
        : parser.option(name, { type: 'string', requiresArg: true, ...alias });
  }
  const names = options.map(({ name }) => name);
  return parser.strictOptions().fail((message, error) => {
    // The parser's own complaints come as errors too; any other error is a fault of ours.
    throw error instanceof Error && error.name !== 'YError' ? error : parseFailure(command, message, names);
  });
}

/** The parser itself makes `--no-color` out of `color`. */
function nameForParser(name: string): string {
  return name === 'no-color' ? 'color' : name;
}

/** The parser's complaint in our words, with the nearest option where one was mistyped. */
function parseFailure(command: CommandSpec, message: string, names: readonly string[]): CommandFailure {
  const unknown = /^Unknown arguments?: (.*)$/s.exec(message)?.[1];
  if (unknown !== undefined) {
    const word = unknown.split(', ')[0];
    const near = suggest(word, names);
    const shown = plainShort(word.length === 1 ? `-${word}` : `--${word}`);
    const hint = near === undefined ? undefined : `did you mean --${near}?`;
    return usageFailure(command.name, `${command.name} has no option ${shown}`, hint);
  }
  const bare = /^Not enough arguments following: (.*)$/s.exec(message)?.[1];
  if (bare !== undefined) {
    return usageFailure(command.name, `${bare.length === 1 ? '-' : '--'}${plainShort(bare)} needs a value`);
  }
  return usageFailure(command.name, plainShort(message, 200));
}
