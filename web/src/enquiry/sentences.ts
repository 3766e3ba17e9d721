// The enquiry as sentences: a template of the catalogue says which fields stand in a sentence; fields it does not name
// follow as a list, so that a machine or a field added to the engine shows up without a change here.
import { maybe } from '../text/catalogue';
import { get, type Doc } from './path';
import { field, records } from './schema';

export type Piece = { text: string } | { path: string };

export interface Passage {
  /** Path of the record, `site` or `machine.belt_conveyor`. */
  record: string;
  label: string;
  pieces: Piece[];
  /** Paths of the fields no sentence names. */
  rest: string[];
}

export function pieces(template: string): Piece[] {
  return template
    .split(/(\{[\w.]+\})/)
    .filter((part) => part !== '')
    .map((part) => (part.startsWith('{') ? { path: part.slice(1, -1) } : { text: part }));
}

/** The fields of a record, those of records inside it too. */
export function leaves(record: string): string[] {
  return (field(record)?.fields ?? [])
    .map((key) => `${record}.${key}`)
    .flatMap((path) => (field(path)?.kind === 'record' ? leaves(path) : [path]));
}

function passage(record: string, template: string): Passage {
  const known = pieces(template).filter((piece) => 'text' in piece || field(piece.path) !== undefined);
  const named = new Set(known.flatMap((piece) => ('path' in piece ? [piece.path] : [])));
  const rest = leaves(record).filter((path) => !named.has(path));
  return { record, label: field(record)?.label ?? record, pieces: known, rest };
}

/** The record of a one-of that is given, such as `machine.belt_conveyor`; undefined when none is. */
export function chosen(doc: Doc, oneOf: string): string | undefined {
  const value = get(doc, oneOf);
  const key = value !== null && typeof value === 'object' ? Object.keys(value)[0] : undefined;
  return key !== undefined && field(`${oneOf}.${key}`) ? `${oneOf}.${key}` : undefined;
}

export function passages(doc: Doc): Passage[] {
  return records()
    .filter((key) => key !== 'build')
    .map((key) => {
      if (!field(key)?.oneOf) return passage(key, maybe(`sentence.${key}`) ?? '');
      const record = chosen(doc, key);
      const template = (record && maybe(`sentence.${record}`)) ?? maybe(`sentence.${key}`) ?? `{${key}}`;
      return record ? passage(record, template) : { ...passage(key, template), rest: [] };
    });
}
