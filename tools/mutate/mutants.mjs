/** Faults that could be planted in a source file: small edits of its syntax tree, each with what it says before and after. */
import { parseAst } from 'rolldown/parseAst';

const SWAPS = {
  '+': '-',
  '-': '+',
  '*': '/',
  '/': '*',
  // The opposite: of reals, `<` and `<=` are the same.
  '<': '>=',
  '<=': '>',
  '>': '<=',
  '>=': '<',
  '===': '!==',
  '!==': '===',
  '&&': '||',
  '||': '&&',
};
const ASSIGNMENTS = { '+=': '-=', '-=': '+=', '*=': '/=', '/=': '*=' };

/** What a function is called that `node` is, or `within` where it is none or has no name. */
function functionName(node, parent, within) {
  if (!/Function/u.test(node.type)) return within;
  const named = node.id ?? (parent?.type === 'VariableDeclarator' ? parent.id : parent?.key);
  return named?.name ?? within;
}

/**
 * @param {string} text - of a TypeScript file
 * @returns {{ kind: string, start: number, end: number, put: string, within: string }[]} `within`: the nearest function with a name
 *   that it stands in, none where it is run as the file is loaded
 */
export function mutantsOf(text) {
  const found = [];
  let within = '';
  const put = (kind, start, end, replacement) => found.push({ kind, start, end, put: replacement, within });
  const source = ({ start, end }) => text.slice(start, end);
  /** The operator between two operands: looked for behind the left one, past brackets and remarks. */
  const swapOperator = (kind, node, operator, by) => {
    const between = text.slice(node.left.end, node.right.start);
    const at = between
      .replace(/\/\*.*?\*\/|\/\/.*/gsu, (remark) => ' '.repeat(remark.length))
      .indexOf(operator);
    if (at >= 0) put(kind, node.left.end + at, node.left.end + at + operator.length, by);
  };
  const isText = (node) =>
    node.type === 'TemplateLiteral' || (node.type === 'Literal' && typeof node.value === 'string');

  const visit = (node, parent) => {
    if (node === null || typeof node !== 'object') return;
    if (Array.isArray(node)) {
      for (const each of node) visit(each, parent);
      return;
    }
    if (typeof node.type !== 'string') return;
    // Types, imports and what is shown to people are no physics.
    if (/^TS(?!AsExpression|NonNull|Satisfies)|^(?:Import|ExportAll)/u.test(node.type)) return;
    switch (node.type) {
      case 'BinaryExpression':
      case 'LogicalExpression': {
        const by = SWAPS[node.operator];
        const joinsText = node.operator === '+' && (isText(node.left) || isText(node.right));
        if (by !== undefined && !joinsText)
          swapOperator(`${node.operator} becomes ${by}`, node, node.operator, by);
        break;
      }
      case 'AssignmentExpression': {
        const by = ASSIGNMENTS[node.operator];
        if (by !== undefined) swapOperator(`${node.operator} becomes ${by}`, node, node.operator, by);
        break;
      }
      case 'UnaryExpression':
        if (node.operator === '-' && node.argument.type !== 'Literal')
          put('a sign is lost', node.start, node.end, `(${source(node.argument)})`);
        if (node.operator === '!') put('a not is lost', node.start, node.end, `(${source(node.argument)})`);
        break;
      case 'Literal':
        if (typeof node.value === 'number' && node.value !== 0) {
          const whole = Number.isInteger(node.value) && Math.abs(node.value) <= 20;
          const isIndex = parent?.type === 'MemberExpression';
          if (!isIndex)
            put(
              whole ? 'off by one' : 'five percent',
              node.start,
              node.end,
              String(whole ? node.value + 1 : node.value * 1.05),
            );
        }
        break;
      case 'IfStatement':
        if (node.alternate === null) put('a guard is gone', node.test.start, node.test.end, 'false');
        break;
      case 'ConditionalExpression':
        put('the other branch', node.test.start, node.test.end, `!(${source(node.test)})`);
        break;
      case 'MemberExpression':
        if (source(node) === 'Math.max') put('max becomes min', node.start, node.end, 'Math.min');
        if (source(node) === 'Math.min') put('min becomes max', node.start, node.end, 'Math.max');
        break;
    }
    const outside = within;
    within = functionName(node, parent, within);
    for (const [key, inner] of Object.entries(node)) if (key !== 'type') visit(inner, node);
    within = outside;
  };
  visit(parseAst(text, { lang: 'ts' }).body, null);
  return found;
}
