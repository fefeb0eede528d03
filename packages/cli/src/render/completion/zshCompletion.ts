/** Completion for zsh, by its function `_arguments`. */
import { COMMON_OPTIONS, type CommandSpec, type OptionSpec } from '../../commandSpec.ts';
import { type Completes, operandOf, optionsOf, optionValue } from './completes.ts';

export function zshCompletion(commands: readonly CommandSpec[]): string {
  return `#compdef valvetide
# Completes valvetide in zsh: put this into a folder of your fpath, under the name _valvetide.
_valvetide() {
  local context state state_descr line
  typeset -A opt_args
  _arguments -C ${COMMON_OPTIONS.map(argument).join(' ')} '1: :->command' '*:: :->rest'
  case $state in
    command)
      local -a commands
      commands=(
${commands.map(({ name, summary }) => `        ${quoted(`${name}:${summary}`)}`).join('\n')}
        'help:show the help of a command'
      )
      _describe command commands ;;
    rest)
      case $line[1] in
        help) _arguments ${quoted(`1:command:(${commands.map(({ name }) => name).join(' ')})`)} ;;
${commands.map(branch).join('\n')}
      esac ;;
  esac
}
_valvetide "$@"
`;
}

function branch(command: CommandSpec): string {
  const { operand } = command;
  const operands =
    operand === '' ? [] : [quoted(`*:${operand.replaceAll(/[[\]:]/g, '')}:${action(operandOf(command))}`)];
  return `        ${command.name})
          _arguments \\
${[...optionsOf(command).map(argument), ...operands].map((line) => `            ${line}`).join(' \\\n')} ;;`;
}

function argument(option: OptionSpec): string {
  const { name, short, value, many, help } = option;
  const what = optionValue(option);
  const tail = what === undefined ? '' : `:${(value ?? '').replaceAll(':', ' ')}:${action(what)}`;
  const said = `[${help.replaceAll(/[[\]\\:]/g, '\\$&')}]${tail}`;
  const repeat = many === true ? '*' : '';
  if (short === undefined) return quoted(`${repeat}--${name}${said}`);
  const apart = many === true ? `'*'` : quoted(`(-${short} --${name})`);
  return `${apart}{-${short},--${name}}${quoted(said)}`;
}

function action(what: Completes): string {
  if (what.kind === 'files') return '_files';
  return what.kind === 'words' ? `(${what.words.join(' ')})` : ' ';
}

function quoted(text: string): string {
  return `'${text.replaceAll("'", "'\\''")}'`;
}
