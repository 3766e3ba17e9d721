// The colours of the page for a canvas, which cannot read style sheets by itself.
export interface Palette {
  paper: string;
  ink: string;
  ink2: string;
  rule: string;
  steel: string;
  steel2: string;
  steel3: string;
  discs: string[];
  force: string;
  pin: string;
  known: string;
  sans: string;
  line: number;
}

export function readPalette(element: Element): Palette {
  const style = getComputedStyle(element);
  const get = (name: string) => style.getPropertyValue(`--${name}`).trim();
  return {
    paper: get('paper'),
    ink: get('ink'),
    ink2: get('ink-2'),
    rule: get('rule'),
    steel: get('steel'),
    steel2: get('steel-2'),
    steel3: get('steel-3'),
    discs: [get('disc-1'), get('disc-2'), get('disc-3')],
    force: get('madder'),
    pin: get('amber'),
    known: get('glass'),
    sans: get('sans'),
    line: parseFloat(get('line')) || 1,
  };
}

/** From the disc's own colour over amber to madder, for stress inside the disc. */
export function stressRamp(palette: Palette): string[] {
  const stops = [palette.discs[0] ?? palette.steel, palette.pin, palette.force].map((colour) =>
    [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16)),
  );
  return Array.from({ length: 18 }, (_, level) => {
    const at = (level / 17) * 2;
    const low = Math.min(1, Math.floor(at));
    const mix = stops[low]!.map((from, i) => Math.round(from + (stops[low + 1]![i]! - from) * (at - low)));
    return `rgb(${mix.join(' ')})`;
  });
}
