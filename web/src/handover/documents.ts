// The documents of a hand-over, made by the program that serves this page.
import type { Build, Problem } from '../engine/contract';
import type { Doc } from '../enquiry/path';
import type { System } from '../quantity/units';

export interface Wanted {
  enquiry: Doc;
  build: Build;
  units: System;
  paper: 'a4' | 'letter';
  document: string;
  preview: boolean;
}
export interface Made {
  files: { name: string; content: string }[];
  skipped: string[];
}

/** Documents with the files that can be had of them. */
export const kDocuments = [
  { name: 'proposal', preview: true, files: ['pdf'] },
  { name: 'drawing', preview: true, files: ['pdf', 'svg', 'dxf'] },
  { name: 'order', preview: true, files: ['pdf'] },
  { name: 'commissioning', preview: true, files: ['pdf'] },
  { name: 'findings', preview: false, files: ['xlsx'] },
  { name: 'workings', preview: false, files: ['xlsx'] },
  { name: 'step', preview: false, files: ['step'] },
  { name: 'model', preview: false, files: ['3mf'] },
  { name: 'offline', preview: false, files: ['html'] },
] as const;
export type DocumentName = (typeof kDocuments)[number]['name'];

/** Whether the program behind this page makes documents. */
export async function canMake(): Promise<boolean> {
  try {
    const response = await fetch('./status');
    return response.ok && ((await response.json()) as { handover?: boolean }).handover === true;
  } catch {
    return false; // the page lies on a plain server or a disk
  }
}

/** @returns what was made, or why not */
export async function make(wanted: Wanted): Promise<Made | string> {
  try {
    const response = await fetch('./handover', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify(wanted),
    });
    if (!response.ok) return `${response.status} ${response.statusText}`;
    const answer = (await response.json()) as Made | { errors: Problem[] };
    return 'errors' in answer ? answer.errors.map((problem) => problem.message).join(' ') : answer;
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

const bytesOf = (base64: string) => Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));

export const textOf = (base64: string): string => new TextDecoder().decode(bytesOf(base64));

export function download(file: Made['files'][number]): void {
  const url = URL.createObjectURL(new Blob([bytesOf(file.content)], { type: 'application/octet-stream' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
