/** Text from a file or a command line made harmless for a terminal. */

/** Controls (escape among them), invisible and reordering marks, line and paragraph separators. */
const UNSAFE = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu;

/** JSON spells its own controls out; what is left raw, save the line feeds between its lines. */
const UNSAFE_IN_JSON = /(?!\n)[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu;

/** User and password of an address, up to the last @ before its path. */
const CREDENTIALS = /(:\/\/)[^\s/]*@/gu;

/** The text with every control, reordering or invisible character spelled out as `\u001b`, and addresses without passwords. */
export function plain(text: string): string {
  return withoutPasswords(text.replace(UNSAFE, spelledOut));
}

/** Addresses in the text lose user and password. */
export function withoutPasswords(text: string): string {
  return text.replace(CREDENTIALS, '$1');
}

/** Like {@link plain}, cut to a length that can't flood a line. */
export function plainShort(text: string, most = 60): string {
  const safe = plain(text);
  return safe.length <= most ? safe : `${safe.slice(0, most - 3)}...`;
}

/** JSON with the same characters escaped, which inside its strings means the same. */
export function plainJson(json: string): string {
  return json.replace(UNSAFE_IN_JSON, spelledOut);
}

function spelledOut(character: string): string {
  return Array.from({ length: character.length }, (_, i) => {
    const unit = character.charCodeAt(i);
    return `\\u${unit.toString(16).padStart(4, '0')}`;
  }).join('');
}
