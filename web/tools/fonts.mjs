// Subsets of free fonts from Debian's packages fonts-inter and fonts-linuxlibertine, as woff2 in src/generated/fonts.
// Debian's own Python holds fontTools; a `python3` found first on the path need not.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync } from 'node:fs';

const out = new URL('../src/generated/fonts/', import.meta.url).pathname;
// Latin, Greek, punctuation, superscripts and subscripts, arrows, mathematical operators, a few shapes.
const characters =
  'U+0020-007E,U+00A0-017F,U+0391-03C9,U+2010-2015,U+2018-201E,U+2020-2022,U+2026,U+2032-2033,U+202F,U+2009,U+2070-209C,' +
  'U+20AC,U+2190-2195,U+2200-22FF,U+25A0-25FF,U+2713,U+2717';
const fonts = [
  ['sans-regular', '/usr/share/fonts/opentype/inter/Inter-Regular.otf'],
  ['sans-semibold', '/usr/share/fonts/opentype/inter/Inter-SemiBold.otf'],
  ['serif-regular', '/usr/share/fonts/opentype/linux-libertine/LinLibertine_R.otf'],
  ['serif-italic', '/usr/share/fonts/opentype/linux-libertine/LinLibertine_RI.otf'],
  ['serif-semibold', '/usr/share/fonts/opentype/linux-libertine/LinLibertine_RZ.otf'],
];

mkdirSync(out, { recursive: true });
for (const [name, source] of fonts) {
  const target = `${out}${name}.woff2`;
  if (existsSync(target)) continue;
  execFileSync('/usr/bin/python3', [
    '-m',
    'fontTools.subset',
    source,
    `--unicodes=${characters}`,
    '--flavor=woff2',
    `--output-file=${target}`,
    '--layout-features=kern,liga,tnum,lnum,pnum,case,ss01,cv11,sups,subs,frac,calt,ccmp,locl,mark,mkmk',
  ]);
}
