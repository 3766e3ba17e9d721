// Formulas of a working, plain text such as `p = sqrt(q E* / (2 pi R))`, as TeX; and the same with numbers put in.
// What cannot be read stays text: the reader gets the formula either way.
import type { Step } from '../engine/contract';
import type { System } from '../quantity/units';

type Node =
  | { kind: 'number'; text: string }
  | { kind: 'symbol'; name: string }
  | { kind: 'call'; name: string; args: Node[] }
  | { kind: 'group'; open: string; inner: Node }
  | { kind: 'power'; base: Node; exponent: Node }
  | { kind: 'product'; factors: Node[] }
  | { kind: 'quotient'; over: Node; under: Node }
  | { kind: 'sum'; first: Node; rest: [string, Node][] }
  | { kind: 'negative'; inner: Node };

const greek = new Set(
  'alpha beta gamma delta epsilon zeta eta theta iota kappa lambda mu nu xi pi rho sigma tau upsilon phi chi psi omega Gamma Delta Theta Lambda Xi Pi Sigma Phi Psi Omega'.split(
    ' ',
  ),
);
const greekShort: Record<string, string> = {
  eps: '\\varepsilon',
  al: '\\alpha',
  sig: '\\sigma',
  kap: '\\kappa',
  lam: '\\lambda',
  om: '\\omega',
  epsilon: '\\varepsilon',
  phi: '\\varphi',
};
const functions: Record<string, string> = {
  sin: '\\sin',
  cos: '\\cos',
  tan: '\\tan',
  exp: '\\exp',
  ln: '\\ln',
  log: '\\log',
  log10: '\\log_{10}',
  lg: '\\lg',
  min: '\\min',
  max: '\\max',
  atan: '\\arctan',
  asin: '\\arcsin',
  acos: '\\arccos',
  tanh: '\\tanh',
  sinh: '\\sinh',
  cosh: '\\cosh',
  arg: '\\arg',
  inv: '\\operatorname{inv}',
  mean: '\\operatorname{mean}',
  rms: '\\operatorname{rms}',
  sum: '\\sum',
  integral: '\\int',
  product: '\\prod',
  count: '\\#',
  sign: '\\operatorname{sign}',
};
const relations: Record<string, string> = {
  '=': '=',
  '<': '<',
  '>': '>',
  '<=': '\\le',
  '>=': '\\ge',
  '≤': '\\le',
  '≥': '\\ge',
  '~': '\\sim',
  '≈': '\\approx',
  '->': '\\to',
};

const small = new Set('an and as at by for from in is it of on or per the to when with'.split(' '));
/** A word of a sentence rather than a symbol. */
const isProse = (word: string) =>
  small.has(word) || (/^[A-Za-z]?[a-z]{3,}$/.test(word) && !greek.has(word) && !(word in functions) && word !== 'sqrt');

interface Token {
  type: 'number' | 'symbol' | 'operator';
  text: string;
}

function tokens(text: string, symbols: string[]): Token[] {
  const known = [...symbols].filter((symbol) => symbol !== '').sort((a, b) => b.length - a.length);
  const out: Token[] = [];
  let at = 0;
  while (at < text.length) {
    const rest = text.slice(at);
    const space = /^\s+/.exec(rest);
    if (space) {
      at += space[0].length;
      continue;
    }
    const symbol = known.find(
      (name) =>
        rest.startsWith(name) &&
        !/^[\w']/.test(rest.slice(name.length)) &&
        !/[\w]/.test(name.slice(-1) === '*' ? '' : (rest[name.length] ?? '')),
    );
    if (symbol) {
      out.push({ type: 'symbol', text: symbol });
      at += symbol.length;
      continue;
    }
    const over = /^(sum|count|product|integral) of /.exec(rest);
    if (over) {
      out.push({ type: 'symbol', text: over[1]! });
      at += over[0].length;
      continue;
    }
    const word =
      /^(\d+(?:\.\d+)?(?:[eE][-+]?\d+)?)|^([A-Za-zµ\u0370-\u03ff][A-Za-z0-9\u0370-\u03ff]*'*(?:_(?:\{[^}]*\}|[A-Za-z0-9\u0370-\u03ff]+(?:,[A-Za-z0-9]+)*'*))*)/.exec(
        rest,
      );
    if (word?.[1]) out.push({ type: 'number', text: word[1] });
    else if (word?.[2]) out.push({ type: 'symbol', text: word[2] });
    const operator = word ? null : /^(<=|>=|->|\+-|[-+*/^()[\]{},=<>|~±×·−≤≥≈√²³])/.exec(rest);
    if (operator) out.push({ type: 'operator', text: operator[0].replace('−', '-').replace(/[×·]/, '*') });
    const length = word?.[0].length ?? operator?.[0].length;
    if (!length) throw new Error(`cannot read '${rest.slice(0, 12)}'`);
    at += length;
  }
  const prose = out.filter((token) => token.type === 'symbol' && isProse(token.text) && !known.includes(token.text));
  if (prose.length > 1 || prose.length === out.length) throw new Error('a sentence');
  return out;
}

class Parser {
  #tokens: Token[];
  #at = 0;
  constructor(list: Token[]) {
    this.#tokens = list;
  }
  get done(): boolean {
    return this.#at >= this.#tokens.length;
  }
  #peek(): Token | undefined {
    return this.#tokens[this.#at];
  }
  #isOperator(...texts: string[]): boolean {
    const token = this.#peek();
    return token?.type === 'operator' && texts.includes(token.text);
  }
  #take(): Token {
    const token = this.#tokens[this.#at++];
    if (!token) throw new Error('formula ends early');
    return token;
  }
  #expect(text: string): void {
    if (!this.#isOperator(text)) throw new Error(`'${text}' expected`);
    this.#at++;
  }
  /** Sides of an equation with the relations between them. */
  equation(): { sides: Node[]; signs: string[] } {
    const sides = [this.sum()];
    const signs: string[] = [];
    while (!this.done) {
      const sign = this.#take().text;
      if (!(sign in relations)) throw new Error(`'${sign}' is no relation`);
      signs.push(relations[sign]!);
      sides.push(this.sum());
    }
    return { sides, signs };
  }
  sum(): Node {
    const first = this.#isOperator('-')
      ? (this.#take(), { kind: 'negative', inner: this.#product() } as Node)
      : this.#product();
    const rest: [string, Node][] = [];
    while (this.#isOperator('+', '-', '±', '+-')) {
      const sign = this.#take().text;
      rest.push([sign === '±' || sign === '+-' ? '\\pm' : sign, this.#product()]);
    }
    return rest.length > 0 ? { kind: 'sum', first, rest } : first;
  }
  #product(): Node {
    let factors: Node[] = [this.#power()];
    for (;;) {
      if (this.#isOperator('*')) {
        this.#take();
        factors.push(this.#power());
      } else if (this.#isOperator('/')) {
        this.#take();
        const over: Node = factors.length === 1 ? factors[0]! : { kind: 'product', factors };
        factors = [{ kind: 'quotient', over, under: this.#power() }];
      } else if (this.#startsFactor()) {
        factors.push(this.#power());
      } else {
        return factors.length === 1 ? factors[0]! : { kind: 'product', factors };
      }
    }
  }
  #startsFactor(): boolean {
    const token = this.#peek();
    return (
      token !== undefined &&
      (token.type !== 'operator' || token.text === '(' || token.text === '[' || token.text === '√')
    );
  }
  #power(): Node {
    let base = this.#atom();
    while (this.#isOperator('²', '³'))
      base = { kind: 'power', base, exponent: { kind: 'number', text: this.#take().text === '²' ? '2' : '3' } };
    if (!this.#isOperator('^')) return base;
    this.#take();
    const negative = this.#isOperator('-') ? (this.#take(), true) : false;
    const exponent = this.#power();
    return { kind: 'power', base, exponent: negative ? { kind: 'negative', inner: exponent } : exponent };
  }
  #atom(): Node {
    const token = this.#take();
    if (token.type === 'number') return { kind: 'number', text: token.text };
    if (token.type === 'symbol') {
      if (token.text in functions || token.text === 'sqrt' || token.text === 'abs') {
        if (!this.#isOperator('(')) return { kind: 'call', name: token.text, args: [this.#power()] };
        this.#take();
        return { kind: 'call', name: token.text, args: this.#arguments() };
      }
      return { kind: 'symbol', name: token.text };
    }
    if (token.text === '(' || token.text === '[' || token.text === '{') {
      const inner = this.sum();
      this.#expect(token.text === '(' ? ')' : token.text === '[' ? ']' : '}');
      return { kind: 'group', open: token.text, inner };
    }
    if (token.text === '|') {
      const inner = this.sum();
      this.#expect('|');
      return { kind: 'call', name: 'abs', args: [inner] };
    }
    if (token.text === '√') return { kind: 'call', name: 'sqrt', args: [this.#atom()] };
    throw new Error(`'${token.text}' out of place`);
  }
  #arguments(): Node[] {
    const args = [this.sum()];
    while (this.#isOperator(',')) {
      this.#take();
      args.push(this.sum());
    }
    this.#expect(')');
    return args;
  }
}

/** How a symbol is set; `E*`, `p_max`, `sigma_H`, `T2`. */
export function symbolTex(name: string): string {
  if (/^sum[A-Z]/.test(name)) return `\\sum ${symbolTex(name.slice(3))}`;
  const [head = '', ...below] = name.replace(/\*$/, '').split('_');
  const star = name.endsWith('*') ? '^{*}' : '';
  const primes = /'+$/.exec(head)?.[0] ?? '';
  let base = head.slice(0, head.length - primes.length);
  const digits = /^([A-Za-z\u0370-\u03ff]+?)(\d+)$/.exec(base);
  if (digits && below.length === 0) {
    base = digits[1]!;
    below.push(digits[2]!);
  }
  const main =
    greekShort[base] ?? (greek.has(base) ? `\\${base}` : base.length === 1 ? base : `\\mathrm{${escapeTex(base)}}`);
  const script = below.map((part) => part.replace(/[{}]/g, '')).join(',');
  const lower =
    script === ''
      ? ''
      : `_{${greek.has(script) ? `\\${script}` : /^([A-Za-z]|\d+)$/.test(script) ? script : `\\mathrm{${escapeTex(script)}}`}}`;
  return `${main}${primes}${lower}${star}`;
}

const escapeTex = (text: string) =>
  text.replace(/[\\{}$&#^_~%]/g, (sign) => (sign === '\\' ? '\\backslash ' : `\\${sign}`));

function unitTex(unit: string): string {
  if (unit === '') return '';
  const inner = unit
    .replace(/%/g, '\\%')
    .replace(/°/g, '{}^\\circ ')
    .replace(/µ/g, '\\mu ')
    .replace(/²/g, '^{2}')
    .replace(/³/g, '^{3}')
    .replace(/·/g, '{\\cdot}')
    .replace(/([A-Za-z])([23])(?![0-9])/g, '$1^{$2}');
  return `\\,\\mathrm{${inner}}`;
}

/** `1067 MPa` -> TeX. */
export function valueTex(text: string): string {
  const match = /^([-\u2212]?[\d.]+)(?:e([-+]?\d+))?\s*(.*)$/.exec(text);
  if (!match) return `\\text{${escapeTex(text)}}`;
  const power = match[2] ? `\\cdot 10^{${Number(match[2])}}` : '';
  return `${match[1]!.replace('\u2212', '-')}${power}${unitTex(match[3] ?? '')}`;
}

type Values = Map<string, string>;

function print(node: Node, values: Values | undefined): string {
  const inner = (child: Node) => print(child, values);
  const bare = (child: Node) => print(child.kind === 'group' ? child.inner : child, values);
  switch (node.kind) {
    case 'number':
      return valueTex(node.text);
    case 'symbol': {
      const value = values?.get(node.name);
      return value === undefined ? symbolTex(node.name) : valueTex(value);
    }
    case 'negative':
      return `-${inner(node.inner)}`;
    case 'group':
      return `\\left${node.open === '{' ? '\\{' : node.open}${inner(node.inner)}\\right${{ '(': ')', '[': ']', '{': '\\}' }[node.open]!}`;
    case 'power': {
      const base = node.base;
      const wide = values !== undefined && base.kind === 'symbol' && values.has(base.name);
      return `${wide ? `\\left(${inner(base)}\\right)` : `{${inner(base)}}`}^{${bare(node.exponent)}}`;
    }
    case 'product':
      return node.factors
        .map((factor) =>
          values && factor.kind === 'symbol' && /^[-\u2212]/.test(values.get(factor.name) ?? '')
            ? `\\left(${inner(factor)}\\right)`
            : inner(factor),
        )
        .join(values ? ' \\cdot ' : ' \\, ');
    case 'quotient':
      return `\\frac{${bare(node.over)}}{${bare(node.under)}}`;
    case 'sum':
      return inner(node.first) + node.rest.map(([sign, term]) => ` ${sign} ${inner(term)}`).join('');
    case 'call': {
      const [first] = node.args;
      if (node.name === 'sqrt' && first) return `\\sqrt{${bare(first)}}`;
      if (node.name === 'abs' && first) return `\\left|${bare(first)}\\right|`;
      const list = node.args.map(inner).join(',\\; ');
      const plain =
        node.args.length === 1 && first !== undefined && (first.kind === 'symbol' || first.kind === 'number');
      return plain && node.name !== 'min' && node.name !== 'max' && !values
        ? `${functions[node.name]} ${list}`
        : `${functions[node.name]}\\left(${list}\\right)`;
    }
  }
}

/** `a = b, c = d when e > f` -> its clauses; commas inside brackets do not part them. */
function clauses(formula: string): string[] {
  const out = [''];
  let depth = 0;
  for (const sign of formula) {
    if ('([{'.includes(sign)) ++depth;
    if (')]}'.includes(sign)) --depth;
    if (depth === 0 && (sign === ',' || sign === ';')) out.push('');
    else out[out.length - 1] += sign;
  }
  return out.map((clause) => clause.trim());
}

/** A clause after the first: a definition, a condition, or words. */
function clauseTex(clause: string, symbols: string[]): string {
  try {
    const { sides, signs } = new Parser(tokens(clause, symbols)).equation();
    return sides.map((side, index) => (index > 0 ? ` ${signs[index - 1]} ` : '') + print(side, undefined)).join('');
  } catch {
    return `\\text{${escapeTex(clause)}}`;
  }
}

/** Two lines of TeX: the formula, and its numbers with the result; undefined when the formula cannot be read. */
export function stepTex(step: Step, system: System): string[] | undefined {
  const result = valueTex(step.value[system]);
  const symbols = [step.symbol, ...step.inputs.map((input) => input.symbol)];
  const [first = '', ...more] = clauses(step.formula);
  try {
    const parser = new Parser(tokens(first, symbols));
    const { sides, signs } = parser.equation();
    const own = symbolTex(step.symbol);
    const formula = sides
      .map((side, index) => (index > 0 ? ` ${signs[index - 1]} ` : '') + print(side, undefined))
      .join('');
    const others = more.map((clause) => {
      const [what = '', when] = clause.split(/\bwhen\b/);
      const condition = when === undefined ? '' : `\\;\\text{ when }\\;${clauseTex(when.trim(), symbols)}`;
      return `,\\quad ${clauseTex(what.trim(), symbols)}${condition}`;
    });
    const head = (sides.length === 1 ? `${own} = ${formula}` : formula) + others.join('');
    const values: Values = new Map(step.inputs.map((input) => [input.symbol, input.value[system]]));
    const last = sides.at(-1)!;
    const put = print(last, values);
    const trivial = values.size === 0 || put === result || put === print(last, undefined);
    if (trivial && others.length > 0) return [head, `${own} = ${result}`];
    return trivial ? [`${head} = ${result}`] : [head, `\\phantom{${own}} = ${put} = ${result}`];
  } catch {
    return undefined;
  }
}
