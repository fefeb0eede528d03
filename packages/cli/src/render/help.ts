/** Help texts, made from the commands' data: examples first, because most readers stop there. */
import { COMMON_OPTIONS, type CommandSpec, type OptionSpec } from '../commandSpec.ts';
import { EXIT_MEANINGS } from '../exitCodes.ts';
import { wrap } from './wrap.ts';

export function programHelp(commands: readonly CommandSpec[], width: number): string {
  // A command line can't be wrapped: one too long for the terminal stands in its command's own help.
  const examples = commands
    .flatMap((command) => command.examples.slice(0, 1))
    .filter(([line]) => line.length + 2 <= width);
  return sections(
    [
      'Forecasts the torque and power of a four-stroke spark-ignition engine from its build sheets.',
      `Examples\n${pairs(examples, width)}`,
      'Usage\n  valvetide COMMAND [FILE] [options]',
      `Commands\n${pairs(
        commands.map(({ name, operand, summary }) => [`${name} ${operand}`.trim(), summary]),
        width,
      )}`,
      `Options\n${pairs(COMMON_OPTIONS.map(optionPair), width)}`,
      exitCodes(width),
      'valvetide COMMAND --help shows the options of a command. A combination file is YAML or JSON; - reads it from standard input. Nothing is sent over a network. No file is written that no option names, but for the traces of a fault of the program in the temporary folder of the system.',
    ],
    width,
  );
}

export function commandHelp(command: CommandSpec, width: number): string {
  return sections(
    [
      `${command.summary[0].toUpperCase()}${command.summary.slice(1)}.`,
      `Examples\n${pairs(command.examples, width)}`,
      `Usage\n  ${`valvetide ${command.name} ${command.operand}`.trim()} [options]`,
      `Options\n${pairs([...command.options, ...COMMON_OPTIONS].map(optionPair), width)}`,
      ...command.notes,
      exitCodes(width),
    ],
    width,
  );
}

function sections(parts: readonly string[], width: number): string {
  const shown = parts.map((part) => (part.includes('\n') ? part : wrap(part, width).join('\n')));
  return `${shown.join('\n\n')}\n`;
}

function exitCodes(width: number): string {
  return `Exit codes\n${pairs(
    EXIT_MEANINGS.map(([code, meaning]) => [String(code).padStart(3), meaning]),
    width,
  )}`;
}

function optionPair({ name, short, value, choices, many, help }: OptionSpec): readonly [string, string] {
  const flag = `${short === undefined ? '    ' : `-${short}, `}--${name}${value === undefined ? '' : ` ${value}`}`;
  const choice = choices === undefined ? help : `${help}: ${choices.join(', ')}`;
  return [flag, many === true ? `${choice}; may be given again` : choice];
}

/** Two columns; the second wraps, and drops to its own line where the first is long. */
function pairs(rows: readonly (readonly [string, string])[], width: number): string {
  const left = Math.min(
    Math.max(...rows.map(([first]) => first.length)),
    Math.max(12, Math.floor(width * 0.55)),
  );
  const lines = rows.flatMap(([first, second]) => {
    const body = wrap(second, Math.max(20, width - left - 4));
    const margin = ' '.repeat(left + 4);
    if (first.length > left) return [`  ${first}`, ...body.map((line) => margin + line)];
    return body.map((line, i) => (i === 0 ? `  ${first.padEnd(left)}  ${line}` : margin + line));
  });
  return lines.join('\n');
}
