// KaTeX in a part of its own: loaded when the first working is opened.
import katex from 'katex';
import 'katex/dist/katex.min.css';

const cache = new Map<string, string>();

export function typeset(tex: string, display: boolean): string {
  const key = `${display}${tex}`;
  let html = cache.get(key);
  if (html === undefined) {
    html = katex.renderToString(tex, {
      displayMode: display,
      throwOnError: false,
      output: 'htmlAndMathml',
      strict: false,
    });
    if (cache.size > 4000) cache.clear();
    cache.set(key, html);
  }
  return html;
}
