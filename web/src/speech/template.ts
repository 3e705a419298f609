// Templates with named places and their cases, as `pycore/speech/template.py` reads them: a small part of ICU
// MessageFormat, `{width}`, `{count, plural, one {a sheet} other {{count} sheets}}`, `{loaded, select, roll {…} other {…}}`.

export type Value = string | number;

/** A text of a template, or a place in it; with the format `s` it keeps its value's text as it is. */
export type Piece = string | { name: string; isText?: boolean };

type Node =
  string | { name: string; isText?: boolean; cases?: Readonly<Record<string, readonly Node[]>>; plural?: boolean };

const kept = new Map<string, readonly Node[]>();

/** Take a template apart; throws where a brace stands that means nothing. */
export function parsed(template: string): readonly Node[] {
  const known = kept.get(template);
  if (known !== undefined) return known;
  const [nodes, end] = nodesFrom(template, 0, false);
  if (end !== template.length) throw new SyntaxError(`a brace too many at ${end} of ${template}`);
  kept.set(template, nodes);
  return nodes;
}

function nodesFrom(text: string, from: number, inside: boolean): [readonly Node[], number] {
  const nodes: Node[] = [];
  let at = from;
  while (at < text.length) {
    // In a case the first closing brace is its end; two of them end the choice too.
    if (text[at] === "}" && (inside || text[at + 1] !== "}")) break;
    const value = matchAt(/\{(\w+)(?:![rs])?(?::([^{}]*))?\}/y, text, at);
    const cases = value === null ? matchAt(/\{(\w+), (plural|select),/y, text, at) : null;
    const plain = value === null && cases === null ? matchAt(/[^{}]+|\{\{|\}\}/y, text, at) : null;
    if (value !== null) nodes.push({ name: value[1] ?? "", ...(value[2] === "s" && { isText: true }) });
    else if (cases !== null) {
      const [found, end] = casesFrom(text, at + cases[0].length);
      nodes.push({ name: cases[1] ?? "", cases: found, plural: cases[2] === "plural" });
      at = end;
      continue;
    } else if (plain !== null) nodes.push(plain[0] === "{{" || plain[0] === "}}" ? plain[0].charAt(0) : plain[0]);
    else break;
    at += (value ?? plain)?.[0].length ?? 0;
  }
  return [nodes, at];
}

function casesFrom(text: string, from: number): [Readonly<Record<string, readonly Node[]>>, number] {
  const cases: Record<string, readonly Node[]> = {};
  let at = from;
  for (;;) {
    const head = matchAt(/\s*([^\s{}]+) \{/y, text, at);
    if (head === null) throw new SyntaxError(`a choice without its end in ${text}`);
    const [inner, end] = nodesFrom(text, at + head[0].length, true);
    if (text[end] !== "}") throw new SyntaxError(`a case without its end in ${text}`);
    cases[head[1] ?? ""] = inner;
    at = end + 1;
    if (text[at] !== "}") continue;
    if (!("other" in cases)) throw new SyntaxError(`a choice without “other” in ${text}`);
    return [cases, at + 1];
  }
}

function matchAt(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at;
  return pattern.exec(text);
}

/** The template's texts and the names of the values between them, for the given values. */
export function flattened(nodes: readonly Node[], values: Readonly<Record<string, unknown>>): Piece[] {
  return nodes.flatMap((node) => {
    if (typeof node === "string" || node.cases === undefined) return [node];
    const value = values[node.name];
    const asked = node.plural
      ? value === 1
        ? "one"
        : "other"
      : value === true
        ? "yes"
        : value === false
          ? "no"
          : String(value);
    return flattened(node.cases[asked] ?? node.cases["other"] ?? [], values);
  });
}
