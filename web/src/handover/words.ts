// Words of the hand-over's section.
export const words = {
  heading: 'Hand-over',
  help: 'The same figures as documents for the customer, made by this machine from what stands above.',
  alone:
    'Documents are made by the program on your machine: `lobewise handover ENQUIRY --out FOLDER`. This page was not opened by it.',
  paper: 'Paper',
  proposal: 'Proposal',
  drawing: 'Dimension drawing',
  order: 'Order sheet',
  commissioning: 'Commissioning sheet',
  findings: 'Findings and case as a workbook',
  workings: 'Workings as live formulas',
  step: 'Outline in space',
  model: 'Demonstration model to print',
  offline: 'This page in one file that needs no network',
  preview: 'Preview',
  previewOf: 'Preview of the {document}',
  close: 'Close the preview',
  making: 'Making: {document} …',
  skipped: 'Not made: {why}',
  failed: 'It could not be made: {why}',
  older: 'The preview shows earlier values.',
} as const;
export type Word = keyof typeof words;

export function say(key: Word, values: Record<string, string> = {}): string {
  return words[key].replace(/\{(\w+)\}/g, (whole, name: string) => values[name] ?? whole);
}
