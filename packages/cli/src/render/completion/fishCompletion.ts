/** Completion for fish. */
import { COMMON_OPTIONS, type CommandSpec, type OptionSpec } from '../../commandSpec.ts';
import { type Completes, operandOf, optionValue } from './completes.ts';

export function fishCompletion(commands: readonly CommandSpec[]): string {
  const names = commands.map(({ name }) => name).join(' ');
  const bare = `not __fish_seen_subcommand_from ${names} help`;
  return `${[
    '# Completes valvetide in fish: put this into ~/.config/fish/completions/valvetide.fish',
    'complete -c valvetide -f',
    ...COMMON_OPTIONS.map((option) => optionLine(option, '')),
    ...commands.map(({ name, summary }) => line(bare, `-a ${name} -d ${quoted(summary)}`)),
    line(bare, "-a help -d 'show the help of a command'"),
    line('__fish_seen_subcommand_from help', `-a ${quoted(names)}`),
    ...commands.flatMap(linesOf),
  ].join('\n')}\n`;
}

function linesOf(command: CommandSpec): string[] {
  const within = `__fish_seen_subcommand_from ${command.name}`;
  const operand = behind(operandOf(command));
  return [
    ...command.options.map((option) => optionLine(option, within)),
    ...(operand === '' ? [] : [line(within, operand)]),
  ];
}

function optionLine(option: OptionSpec, within: string): string {
  const { name, short, help } = option;
  const value = optionValue(option);
  const takes = value === undefined ? '' : ` -r ${behind(value) || '-f'}`;
  return line(within, `-l ${name}${short === undefined ? '' : ` -s ${short}`}${takes} -d ${quoted(help)}`);
}

function behind(what: Completes): string {
  if (what.kind === 'files') return '-F';
  return what.kind === 'words' ? `-f -a ${quoted(what.words.join(' '))}` : '';
}

function line(within: string, rest: string): string {
  return `complete -c valvetide ${within === '' ? '' : `-n ${quoted(within)} `}${rest}`;
}

/** Between single quotes fish knows two escapes. */
function quoted(text: string): string {
  return `'${text.replaceAll(/['\\]/g, '\\$&')}'`;
}
