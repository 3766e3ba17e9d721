// The one door to words: t('key', {name: value}).
import { en, type Catalogue, type Key } from './en';

const catalogue: Catalogue = en;

export function t(key: Key, values: Record<string, string | number> = {}): string {
  return catalogue[key].replace(/\{(\w+)\}/g, (whole, name: string) => String(values[name] ?? whole));
}

/** The text of a key that need not exist, such as that of a machine added later. */
export function maybe(key: string): string | undefined {
  return (catalogue as Record<string, string>)[key];
}

/** `output_pins` -> `Output pins`, for words that came from data and have no text of their own yet. */
export function wordsOf(key: string): string {
  const words = key.replaceAll('_', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}
