/** Words broken into lines no longer than a width; what indents the text indents its first line, `indent` the others. */
export function wrap(text: string, width: number, indent = ''): string[] {
  const words = text.trimStart().split(' ');
  const lines: string[] = [];
  let line = text.slice(0, text.length - text.trimStart().length);
  let empty = true;
  for (const word of words) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = `${indent}${word}`;
    } else {
      line = empty ? `${line}${word}` : `${line} ${word}`;
    }
    empty = false;
  }
  lines.push(line);
  return lines;
}
