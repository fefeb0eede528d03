/** Pages of the manual, made from the same data as help, in the man macros every Unix reads. */
import { COMMON_OPTIONS, type CommandSpec, type OptionSpec } from '../commandSpec.ts';
import { EXIT_MEANINGS } from '../exitCodes.ts';

/** Texts by file name: one page for the program, one a command. */
export function manPages(
  commands: readonly CommandSpec[],
  version: string,
): Readonly<Record<string, string>> {
  return {
    'valvetide.1': programPage(commands, version),
    ...Object.fromEntries(
      commands.map((command) => [`valvetide-${command.name}.1`, commandPage(command, version)]),
    ),
  };
}

function programPage(commands: readonly CommandSpec[], version: string): string {
  return page('valvetide', version, [
    section('NAME', [
      'valvetide \\- forecast the torque and power of a four\\-stroke engine from its build sheets',
    ]),
    section('SYNOPSIS', ['.B valvetide', '.I COMMAND', '[FILE] [options]']),
    section(
      'COMMANDS',
      commands.flatMap(({ name, summary }) => ['.TP', `.BR valvetide\\-${name} (1)`, text(summary)]),
    ),
    section('OPTIONS', COMMON_OPTIONS.flatMap(optionLines)),
    exitStatus(),
  ]);
}

function commandPage(command: CommandSpec, version: string): string {
  const { name, summary, operand, examples, options, notes } = command;
  return page(`valvetide-${name}`, version, [
    section('NAME', [`valvetide\\-${name} \\- ${text(summary)}`]),
    section('SYNOPSIS', [`.B valvetide ${name}`, ...(operand === '' ? [] : [text(operand)]), '[options]']),
    section('OPTIONS', [...options, ...COMMON_OPTIONS].flatMap(optionLines)),
    ...(notes.length === 0
      ? []
      : [
          section(
            'NOTES',
            notes.flatMap((note) => ['.PP', text(note)]),
          ),
        ]),
    section(
      'EXAMPLES',
      examples.flatMap(([line, what]) => ['.TP', `.B ${text(line)}`, text(what)]),
    ),
    exitStatus(),
    section('SEE ALSO', ['.BR valvetide (1)']),
  ]);
}

function page(title: string, version: string, sections: readonly string[]): string {
  return `.TH ${title.toUpperCase().replaceAll('-', '\\-')} 1 "" "valvetide ${version}"\n${sections.join('')}`;
}

function section(title: string, lines: readonly string[]): string {
  return `.SH ${title}\n${lines.join('\n')}\n`;
}

function optionLines({ name, short, value, choices, many, help }: OptionSpec): readonly string[] {
  const flag = `${short === undefined ? '' : `-${short}, `}--${name}${value === undefined ? '' : ` ${value}`}`;
  const words = choices === undefined ? '' : `: ${choices.join(', ')}`;
  return ['.TP', `.B ${text(flag)}`, text(`${help}${words}${many === true ? '; may be given again' : ''}`)];
}

function exitStatus(): string {
  return section(
    'EXIT STATUS',
    EXIT_MEANINGS.flatMap(([code, meaning]) => ['.TP', `.B ${code}`, text(meaning)]),
  );
}

/** Backslashes and hyphens mean something to the macros; so does a dot or an apostrophe that begins a line. */
function text(plain: string): string {
  const escaped = plain.replaceAll('\\', '\\e').replaceAll('-', '\\-').replaceAll('"', '\\(dq');
  return /^[.']/.test(escaped) ? `\\&${escaped}` : escaped;
}
