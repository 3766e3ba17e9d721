// Enquiries as files: YAML as people write it, the same that the command line reads.
import type { Doc } from '../enquiry/path';

const kMostBytes = 1 << 20;

/** The enquiry in a file, or what is wrong with it. */
export async function openFile(file: File): Promise<Doc | string> {
  if (file.size > kMostBytes) return 'more than 1 MiB';
  const { parse } = await import('yaml');
  try {
    const read: unknown = parse(await file.text(), { schema: 'failsafe', maxAliasCount: 0 });
    if (read === null || typeof read !== 'object' || Array.isArray(read)) return 'no enquiry in it';
    return read as Doc;
  } catch (error) {
    return error instanceof Error ? (error.message.split('\n')[0] ?? '') : String(error);
  }
}

export async function saveFile(doc: Doc): Promise<void> {
  const { stringify } = await import('yaml');
  const name = String(doc['title'] ?? 'enquiry')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '_')
    .replace(/^_|_$/g, '');
  const url = URL.createObjectURL(new Blob([stringify(doc)], { type: 'application/yaml' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = `${name || 'enquiry'}.yaml`;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
