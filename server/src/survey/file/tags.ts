/** The tags of an XML text in order, without its being read into a tree: a mesh has a million of them. No entity is ever expanded. */

export interface Tag {
  /** Without its namespace's prefix. */
  readonly name: string;
  readonly closes: boolean;
  /** Of a tag that has nothing within it. */
  readonly empty: boolean;
  /** By its name without prefix; undefined where it is not given. */
  readonly attribute: (name: string) => string | undefined;
}

const LESS = 0x3c;
const GREATER = 0x3e;
const SLASH = 0x2f;
const QUOTES = [0x22, 0x27];

export function* tagsOf(bytes: Uint8Array): Generator<Tag> {
  const decoder = new TextDecoder("utf-8");
  for (let i = bytes.indexOf(LESS); i >= 0; i = bytes.indexOf(LESS, i)) {
    const end = endOf(bytes, i + 1);
    if (end < 0) return;
    const second = bytes[i + 1];
    if (second !== 0x3f && second !== 0x21) {
      const closes = second === SLASH;
      const empty = bytes[end - 1] === SLASH;
      const text = decoder.decode(bytes.subarray(i + (closes ? 2 : 1), empty ? end - 1 : end));
      yield { name: nameOf(text), closes, empty, attribute: (name) => attributeOf(text, name) };
    } else if (bytes[i + 2] === 0x2d) {
      const close = commentEnd(bytes, i + 4);
      if (close < 0) return;
      i = close;
      continue;
    }
    i = end + 1;
  }
}

function endOf(bytes: Uint8Array, from: number): number {
  let quote = 0;
  for (let i = from; i < bytes.length; i++) {
    const byte = bytes[i] as number;
    if (quote !== 0) {
      if (byte === quote) quote = 0;
    } else if (byte === GREATER) return i;
    else if (QUOTES.includes(byte)) quote = byte;
  }
  return -1;
}

function commentEnd(bytes: Uint8Array, from: number): number {
  for (let i = bytes.indexOf(GREATER, from); i >= 0; i = bytes.indexOf(GREATER, i + 1))
    if (bytes[i - 1] === 0x2d && bytes[i - 2] === 0x2d) return i + 1;
  return -1;
}

function nameOf(text: string): string {
  const end = text.search(/[\s/]/);
  const name = end < 0 ? text : text.slice(0, end);
  return name.slice(name.indexOf(":") + 1);
}

function attributeOf(text: string, name: string): string | undefined {
  for (let at = text.indexOf(name); at > 0; at = text.indexOf(name, at + 1)) {
    const before = text.charCodeAt(at - 1);
    if (before > 32 && before !== 0x3a) continue;
    let i = at + name.length;
    while (text.charCodeAt(i) <= 32) i++;
    if (text[i] !== "=") continue;
    i++;
    while (text.charCodeAt(i) <= 32) i++;
    const quote = text[i];
    if (quote !== '"' && quote !== "'") continue;
    const end = text.indexOf(quote, i + 1);
    return end < 0 ? undefined : text.slice(i + 1, end);
  }
  return undefined;
}
