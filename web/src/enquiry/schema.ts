// The fields of an enquiry as the engine describes them: label, help, unit, limits and words all come from there.
import raw from '../generated/enquiry.schema.json';
import { keysOf } from './path';

export type Kind = 'quantity' | 'count' | 'text' | 'choice' | 'flag' | 'record' | 'list';

interface Schema {
  type?: string | string[];
  title?: string;
  description?: string;
  minimum?: number;
  maximum?: number;
  enum?: string[];
  items?: Schema;
  properties?: Record<string, Schema>;
  required?: string[];
  maxProperties?: number;
  'x-quantity'?: string;
  'x-labels'?: Record<string, string>;
  'x-order'?: string[];
}

export interface Field {
  kind: Kind;
  label: string;
  help: string;
  quantity: string;
  low: number | undefined;
  high: number | undefined;
  choices: { key: string; label: string }[];
  /** Of a record, or of the records in a list. */
  fields: string[];
  required: string[];
  /** Exactly one of the fields is given. */
  oneOf: boolean;
}

function kindOf(schema: Schema): Kind {
  if (schema['x-quantity']) return 'quantity';
  if (schema.enum) return 'choice';
  if (schema.type === 'integer') return 'count';
  if (schema.type === 'boolean') return 'flag';
  if (schema.type === 'array') return 'list';
  return schema.type === 'object' ? 'record' : 'text';
}

function describe(schema: Schema): Field {
  const record = schema.items ?? schema;
  return {
    kind: kindOf(schema),
    label: schema.title ?? '',
    help: schema.description ?? '',
    quantity: schema['x-quantity'] ?? 'number',
    low: schema.minimum,
    high: schema.maximum,
    choices: (schema.enum ?? []).map((key) => ({ key, label: schema['x-labels']?.[key] ?? key })),
    fields: record['x-order'] ?? Object.keys(record.properties ?? {}),
    required: record.required ?? [],
    oneOf: record.maxProperties === 1,
  };
}

const cache = new Map<string, Field | undefined>();

/** The field at a path, `` being the enquiry itself; undefined when there is none. */
export function field(path: string): Field | undefined {
  if (cache.has(path)) return cache.get(path);
  let at: Schema | undefined = raw as Schema;
  for (const key of keysOf(path)) at = typeof key === 'number' ? at?.items : (at?.items ?? at)?.properties?.[key];
  const found = at ? describe(at) : undefined;
  cache.set(path, found);
  return found;
}

/** The record types of the enquiry in the order of its schema. */
export function records(): string[] {
  return (field('')?.fields ?? []).filter((key) => field(key)?.kind === 'record');
}
