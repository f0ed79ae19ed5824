import { generator } from "../properties/random.ts";

// biome-ignore lint/suspicious/noExplicitAny: broken documents, which no type describes
type Data = any;

/** What an entry may be replaced by: other kinds, numbers without end, names that every object has, depths and lengths that no setup has. */
const strangers: readonly ((random: () => number) => Data)[] = [
  () => null,
  () => true,
  () => 0,
  () => -1,
  () => 1.5,
  () => 1e308,
  () => "",
  () => " ",
  () => "NaN",
  () => "-Infinity",
  () => "__proto__",
  () => "constructor",
  () => "\u0000\u202e\ud800",
  () => "1e999",
  (random) => "9".repeat(1 + Math.floor(random() * 5000)),
  () => [],
  () => ({}),
  () => [[], {}],
  () => Array.from({ length: 300 }, () => null),
  (random) => JSON.parse(nested(1 + Math.floor(random() * 3000))),
];

const strangeKeys = ["__proto__", "constructor", "prototype", "toString", "hasOwnProperty", "length", "colour", "", "0", "id", "revisions"];

/** The text of a document that was mutated at some places; the same seed, the same text. */
export function mutatedText(document: object, seed: number): string {
  const random = generator(seed);
  const data: Data = structuredClone(document);
  const mutations = 1 + Math.floor(random() ** 2 * 6);
  for (let i = 0; i < mutations; i++) mutate(data, random);
  const text = JSON.stringify(data);
  // Some are spoilt as text: cut off, or with a character changed, or with a number that JSON knows and no machine does.
  const kind = random();
  const at = Math.floor(random() * text.length);
  if (kind < 0.04) return text.slice(0, at);
  if (kind < 0.1) return text.slice(0, at) + String.fromCharCode(32 + Math.floor(random() * 95)) + text.slice(at + 1);
  if (kind < 0.15) return text.replace(/\b(2048|1)\b/, "1e999");
  return text;
}

function mutate(data: Data, random: () => number): void {
  const among = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
  // Deeper and deeper, until one stops by chance or there is nothing deeper.
  let holder = data;
  let key: string = among(Object.keys(data));
  while (isHolder(holder[key]) && Object.keys(holder[key]).length > 0 && random() < 0.8) {
    holder = holder[key];
    key = among(Object.keys(holder));
  }
  const act = random();
  if (act < 0.2) remove(holder, key);
  else if (act < 0.35 && Array.isArray(holder)) holder.splice(Number(key), 0, structuredClone(holder[Number(key)]));
  else if (act < 0.5) put(holder, among(strangeKeys), among(strangers)(random));
  else if (act < 0.6) put(holder, key, structuredClone(data[among(Object.keys(data))]));
  else put(holder, key, among(strangers)(random));
}

function isHolder(value: unknown): value is object {
  return typeof value === "object" && value !== null;
}

function remove(holder: Data, key: string): void {
  if (Array.isArray(holder)) holder.splice(Number(key), 1);
  else delete holder[key];
}

/** As JSON.parse would, which makes `__proto__` an entry of its own. */
function put(holder: Data, key: string, value: unknown): void {
  Object.defineProperty(holder, key === "length" && Array.isArray(holder) ? "0" : key, {
    value,
    enumerable: true,
    configurable: true,
    writable: true,
  });
}

function nested(depth: number): string {
  return "[".repeat(depth) + "]".repeat(depth);
}
