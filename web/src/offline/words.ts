// Words that only the one-file hand-over needs.
export const words = {
  title: 'Hand-over',
  date: 'of {date}',
  offered: 'Offered',
  move: 'Move it',
  moveHelp: 'Every verdict, figure and line of working follows. Values in the sentences below move too.',
  load: 'Load',
  speed: 'Speed',
  ambient: 'Surroundings',
  handed: 'handed over: {value}',
  reset: 'As handed over',
  same: 'as handed over',
  changed: 'changed',
  print: 'Print',
  local: 'This file computes in your browser and sends nothing anywhere.',
  empty: 'No hand-over in this file',
  emptyHelp: '`lobewise handover ENQUIRY --out FOLDER` writes a file that holds one.',
} as const;

export function say(key: keyof typeof words, values: Record<string, string> = {}): string {
  return words[key].replace(/\{(\w+)\}/g, (whole, name: string) => values[name] ?? whole);
}
