// What a value of the enquiry looks like: said, assumed, not said, or not usable.
import type { Problem, RequirementLine } from '../engine/contract';
import { fromSi, number, show, split, toSi, withUnit, type System } from '../quantity/units';
import { t } from '../text/catalogue';
import type { Json } from './path';
import type { Field } from './schema';

export type Standing = 'said' | 'assumed' | 'unknown' | 'wrong';
export interface Shown {
  text: string;
  standing: Standing;
}

export function valueText(value: Json, field: Field, system: System): string {
  switch (field.kind) {
    case 'quantity': {
      if (typeof value === 'number') return show(value, field.quantity, system);
      const parts = split(String(value), field.quantity);
      if (!parts) return String(value);
      if (parts.unit.system === undefined || parts.unit.system === system)
        return withUnit(number(parts.value, 8), parts.unit.name);
      return show(toSi(parts.value, parts.unit), field.quantity, system);
    }
    case 'choice':
      return field.choices.find((choice) => choice.key === value)?.label ?? String(value);
    case 'flag':
      return t(isTrue(value) ? 'enquiry.yes' : 'enquiry.no');
    case 'list': {
      const count = Array.isArray(value) ? value.length : 0;
      if (count === 0) return t('enquiry.rows.none');
      return count === 1 ? t('enquiry.rows.one') : t('enquiry.rows', { count });
    }
    default:
      return String(value);
  }
}

/** People's files write yes and no. */
export const isTrue = (value: Json | undefined): boolean => value === true || value === 'true' || value === 'yes';

export function shown(
  value: Json | undefined,
  field: Field,
  line: RequirementLine | undefined,
  problem: Problem | undefined,
  system: System,
): Shown {
  if (value !== undefined && value !== '')
    return { text: valueText(value, field, system), standing: problem ? 'wrong' : 'said' };
  if (problem) return { text: t('enquiry.unknown'), standing: 'wrong' };
  if (line?.assumed) return { text: line.value[system], standing: 'assumed' };
  return { text: t('enquiry.unknown'), standing: 'unknown' };
}

/** SI number of a value in simple writing; undefined when only the engine can read it. */
export function siOf(value: Json | undefined, field: Field): number | undefined {
  if (typeof value === 'number') return value;
  const parts = typeof value === 'string' ? split(value, field.quantity) : undefined;
  return parts && toSi(parts.value, parts.unit);
}

/** Text that stands for an SI value in a unit, with as many digits as a hand sets. */
export function written(si: number, unit: Parameters<typeof fromSi>[1], digits = 3): string {
  const text = number(fromSi(si, unit), digits).replace('\u2212', '-');
  return unit.name === '' ? text : `${text} ${unit.name}`;
}
