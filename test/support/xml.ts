/** An element of a small XML file, with its own text and what lies in it. */
export type Xml = {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly text: string;
  readonly children: readonly Xml[];
};

const plainText: Readonly<Record<string, string>> = {
  "&amp;": "&",
  "&lt;": "<",
  "&gt;": ">",
  "&quot;": '"',
  "&apos;": "'",
};
const plainly = (text: string): string => {
  if (/&(?!amp;|lt;|gt;|quot;|apos;)/.test(text)) throw new Error(`a bare & in "${text}"`);
  return text.replace(/&\w+;/g, (entity) => plainText[entity] ?? entity);
};

const tag = /<(\/?)([a-zA-Z][\w-]*)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>/y;

/** Reads elements, attributes and text, and throws at anything that is not well-formed. */
export function parseXml(source: string): Xml {
  type Open = { name: string; attributes: Record<string, string>; text: string; children: Xml[] };
  const root: Open = { name: "", attributes: {}, text: "", children: [] };
  const open: Open[] = [root];
  let at = 0;
  while (at < source.length) {
    const top = open.at(-1) ?? root;
    const next = source.indexOf("<", at);
    const text = source.slice(at, next < 0 ? undefined : next);
    if (/[\u0000-\u0008\u000b\u000c\u000e-\u001f]/.test(text))
      throw new Error("a control character");
    top.text += plainly(text);
    if (next < 0) break;
    tag.lastIndex = next;
    const found = tag.exec(source);
    if (found === null) throw new Error(`no tag at ${source.slice(next, next + 40)}`);
    const [whole, closing, name = "", written = "", empty] = found;
    at = next + whole.length;
    if (closing === "/") {
      if (open.length < 2 || top.name !== name) throw new Error(`</${name}> closes <${top.name}>`);
      open.pop();
      continue;
    }
    const attributes: Record<string, string> = {};
    for (const [, key = "", value = ""] of written.matchAll(/([\w:-]+)="([^"]*)"/g)) {
      if (key in attributes) throw new Error(`${key} twice on <${name}>`);
      attributes[key] = plainly(value);
    }
    const fresh: Open = { name, attributes, text: "", children: [] };
    top.children.push(fresh);
    if (empty !== "/") open.push(fresh);
  }
  const [only] = root.children;
  if (
    open.length !== 1 ||
    root.children.length !== 1 ||
    root.text.trim() !== "" ||
    only === undefined
  ) {
    throw new Error("not one whole element");
  }
  return only;
}

/** An element and all that lies in it. */
export const allOf = (xml: Xml): readonly Xml[] => [xml, ...xml.children.flatMap(allOf)];
