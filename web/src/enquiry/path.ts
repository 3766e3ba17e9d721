// Fields by their path, `duty.spectrum[0].torque`, in plain JSON that is never changed in place.
export type Json = string | number | boolean | null | Json[] | { [key: string]: Json };
export type Doc = { [key: string]: Json };

export function keysOf(path: string): (string | number)[] {
  return path
    .split(/[.[\]]+/)
    .filter((part) => part !== '')
    .map((part) => (/^\d+$/.test(part) ? Number(part) : part));
}

export function get(doc: Json | undefined, path: string): Json | undefined {
  let at: Json | undefined = doc;
  for (const key of keysOf(path)) {
    if (at === null || typeof at !== 'object') return undefined;
    at = Array.isArray(at) ? at[key as number] : at[key as string];
  }
  return at ?? undefined;
}

/** A copy with the value at `path`; undefined takes it away, and records that stay empty with it. */
export function put(doc: Doc, path: string, value: Json | undefined): Doc {
  return (place(doc, keysOf(path), value) as Doc | undefined) ?? {};
}

function place(at: Json | undefined, keys: (string | number)[], value: Json | undefined): Json | undefined {
  const [key, ...rest] = keys;
  if (key === undefined) return value;
  if (typeof key === 'number') {
    const list = Array.isArray(at) ? [...at] : [];
    const item = place(list[key], rest, value);
    if (item === undefined && rest.length === 0) list.splice(key, 1);
    else list[key] = item ?? {};
    return list.length > 0 ? list : undefined;
  }
  const record: Doc = at !== null && typeof at === 'object' && !Array.isArray(at) ? { ...at } : {};
  const inner = place(record[key], rest, value);
  if (inner === undefined) delete record[key];
  else record[key] = inner;
  return Object.keys(record).length > 0 ? record : undefined;
}
