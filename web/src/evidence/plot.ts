// Observable Plot in a part of its own: loaded when the first chart is opened.
import * as Plot from '@observablehq/plot';
import type { Chart } from '../engine/contract';
import { number, tidy, withUnit, type System } from '../quantity/units';
import { decades, looks, type Look } from './looks';

const style = {
  background: 'transparent',
  color: 'var(--ink-2)',
  fontFamily: 'var(--sans)',
  fontSize: '12px',
  overflow: 'visible',
};
const label = (text: string, unit: string) => (unit === '' ? text : `${text}, ${withUnit('', unit).trim()}`);
const tipStyle = { fill: 'var(--leaf)', stroke: 'var(--rule)' };

type AxisUnit = Chart['x_unit'][System];
const shown = (si: number | undefined, unit: AxisUnit) => ((si ?? NaN) - unit.offset) / unit.factor;
const said = (value: number, unit: AxisUnit) => withUnit(number(value, 4), unit.unit);

export function draw(chart: Chart, system: System, width: number): Element {
  return nameless(chart.bars ? drawBars(chart, system, width) : drawCurves(chart, system, width), chart.title);
}

/** Written as in the texts of the page, without marks between thousands. */
const tick = (value: number) => number(value, 6);
const ends = (values: number[]): [number, number] => [Math.min(...values), Math.max(...values)];

/** An axis by decades, whose marks Plot would not name all; or an even one, which Plot divides. */
function axis(log: boolean, values: number[], most: number) {
  if (!log) return { floor: 0, scale: { type: 'linear' as const, nice: true, axis: null }, ticks: undefined };
  const { domain, ticks } = decades(...ends(values.filter((value) => value > 0)), most);
  return { floor: domain[0], scale: { type: 'log' as const, domain, axis: null }, ticks };
}
function across(log: boolean, values: number[], most: number, label: string) {
  const { floor, scale, ticks } = axis(log, values, most);
  const options = { label, labelAnchor: 'right', labelArrow: 'none', labelOffset: 40 } as const;
  return {
    floor,
    scale,
    grid: ticks ? Plot.gridX(ticks) : Plot.gridX({ ticks: most }),
    axis: ticks
      ? Plot.axisX(ticks, { ...options, text: tick })
      : Plot.axisX({ ...options, ticks: most, tickFormat: tick }),
  };
}
function upwards(log: boolean, values: number[], most: number, label: string) {
  const { scale, ticks } = axis(log, values, most);
  const options = { label, labelArrow: 'none' } as const;
  return {
    scale,
    marks: ticks
      ? [Plot.gridY(ticks), Plot.axisY(ticks, { ...options, text: tick })]
      : [Plot.gridY({ ticks: most }), Plot.axisY({ ...options, ticks: most, tickFormat: tick })],
  };
}

interface Bar {
  name: string;
  index: number;
  value: number;
}

/** One line of bars for each thing, its name beside it; the second of a pair is hollow. */
function drawBars(chart: Chart, system: System, width: number): Element {
  const y = chart.y_unit[system];
  const look = looks(chart);
  const bars = chart.series
    .filter((series) => !series.dashed)
    .flatMap((series) =>
      series.y.map((value, index): Bar => ({ name: tidy(series.name[system]), index, value: shown(value, y) })),
    );
  const limits = chart.series
    .map((series, index) => ({ value: shown(series.y[0], y), look: look[index]! }))
    .filter((limit) => limit.look.kind === 'limit');
  const left = Math.min(210, width * 0.42);
  const values = [...bars, ...limits].map((bar) => bar.value);
  // Bars of a logarithmic axis stand on a whole decade.
  if (chart.log_y) values.push(10 ** Math.floor(Math.log10(Math.min(...values.filter((value) => value > 0)))));
  const along = across(chart.log_y, values, Math.max(3, Math.round((width - left) / 90)), label(chart.y_label, y.unit));
  const floor = along.floor;
  const names = [...new Set(bars.map((bar) => bar.name))];
  const pairs = chart.pair.length === 2;
  return Plot.plot({
    width,
    height: 54 + names.length * (pairs ? 34 : 27),
    marginTop: 8,
    marginLeft: left,
    marginBottom: 40,
    marginRight: 8,
    style,
    x: {
      ...along.scale,
      insetRight: 56,
      insetLeft: values.some((value) => value < 0) ? 46 : 0,
      ...(chart.log_y ? {} : { zero: true }),
    },
    y: { axis: null, domain: pairs ? [0, 1] : [0], padding: 0.12 },
    fy: { domain: names, label: null, axis: null, padding: 0.22 },
    marks: [
      Plot.axisFy({ anchor: 'left', label: null, lineWidth: left / 12.5 }),
      along.grid,
      along.axis,
      Plot.barX(bars, {
        fy: 'name',
        y: 'index',
        x1: () => floor,
        x2: 'value',
        fill: (bar: Bar) => (bar.index === 0 ? 'var(--glass)' : 'var(--paper)'),
        stroke: 'var(--glass)',
        title: (bar: Bar) => [bar.name, chart.pair[bar.index], said(bar.value, y)].filter(Boolean).join('\n'),
        tip: tipStyle,
      }),
      ...(chart.log_y ? [] : [Plot.ruleX([0], { stroke: 'var(--rule)' })]),
      ...limits.map(({ value, look: { tone, dash } }) =>
        Plot.ruleX([value], { stroke: tone, strokeDasharray: dash!, strokeWidth: 1.5 }),
      ),
      ...(['start', 'end'] as const).map((textAnchor) =>
        Plot.text(
          bars.filter((bar) => bar.value < 0 === (textAnchor === 'end')),
          {
            fy: 'name',
            y: 'index',
            x: 'value',
            text: (bar: Bar) => number(bar.value, 3),
            textAnchor,
            dx: textAnchor === 'start' ? 5 : -5,
            fill: 'var(--ink)',
            stroke: 'var(--paper)',
            strokeWidth: 3,
          },
        ),
      ),
    ],
  });
}

interface Point {
  x: number;
  y: number;
  name: string;
}

/** Places along a line for its marks: about six, shifted from line to line so that those of near lines do not meet. */
function marked(points: Point[], log: boolean, index: number): Point[] {
  const at = (value: number) => (log ? Math.log(value) : value);
  const first = at(points[0]!.x);
  const span = at(points.at(-1)!.x) - first;
  const found = new Set<Point>();
  for (let step = 0; step < 6; ++step) {
    const aim = first + (span * (step + 0.3 + 0.13 * (index % 4))) / 6;
    found.add(
      points.reduce((best, point) => (Math.abs(at(point.x) - aim) < Math.abs(at(best.x) - aim) ? point : best)),
    );
  }
  return [...found];
}

/** A mark as Plot wants it: `size` is its area. */
const symbol = (mark: NonNullable<Look['mark']>) => ({
  draw(context: CanvasPath, size: number) {
    const radius = Math.sqrt(size / Math.PI);
    mark.forEach(([x, y], i) =>
      i === 0 ? context.moveTo(radius * x, radius * y) : context.lineTo(radius * x, radius * y),
    );
    context.closePath();
  },
});

function drawCurves(chart: Chart, system: System, width: number): Element {
  const x = chart.x_unit[system];
  const y = chart.y_unit[system];
  const look = looks(chart);
  const series = chart.series.map((one) => {
    const name = tidy(one.name[system]);
    const points = one.x.map((value, at): Point => ({ x: shown(value, x), y: shown(one.y[at], y), name }));
    return points.filter((point) => !(chart.log_x && point.x <= 0) && !(chart.log_y && point.y <= 0));
  });
  const all = series.flat();
  const high = Math.max(...all.map((point) => point.y));
  const low = Math.min(...all.map((point) => point.y));
  const order: Look['kind'][] = ['band', 'limit', 'line', 'point'];
  const marks = series
    .map((points, index) => ({ points, index, look: look[index]! }))
    .sort((a, b) => order.indexOf(a.look.kind) - order.indexOf(b.look.kind))
    .flatMap(({ points, index, look: { kind, tone, dash, mark } }) => {
      const dots = kind === 'point' ? points : mark ? marked(points, chart.log_x, index) : [];
      return [
        ...(kind === 'point'
          ? []
          : [
              Plot.line(points, {
                x: 'x',
                y: 'y',
                stroke: tone,
                ...(kind === 'band'
                  ? { strokeWidth: 9, strokeOpacity: 0.28 }
                  : { strokeWidth: kind === 'limit' ? 1.5 : 2, ...(dash ? { strokeDasharray: dash } : {}) }),
              }),
            ]),
        ...(mark
          ? [
              Plot.dot(dots, {
                x: 'x',
                y: 'y',
                r: kind === 'point' ? 5 : 3.5,
                symbol: symbol(mark),
                fill: kind === 'point' ? tone : 'var(--paper)',
                stroke: kind === 'point' ? 'var(--paper)' : tone,
                strokeWidth: kind === 'point' ? 1 : 1.5,
              }),
            ]
          : []),
      ];
    });
  const height = Math.round(Math.min(300, Math.max(220, width * 0.5)));
  const x_axis = across(
    chart.log_x,
    all.map((point) => point.x),
    Math.round(width / 85),
    label(chart.x_label, x.unit),
  );
  const y_axis = upwards(
    chart.log_y,
    all.map((point) => point.y),
    Math.round(height / 38),
    label(chart.y_label, y.unit),
  );
  return Plot.plot({
    width,
    height,
    marginTop: 30,
    marginLeft: 60,
    marginBottom: 46,
    marginRight: 16,
    style,
    x: { ...x_axis.scale, nice: false, ...(chart.log_x ? { domain: ends(all.map((point) => point.x)) } : {}) },
    y: y_axis.scale,
    marks: [
      ...y_axis.marks,
      x_axis.axis,
      // From zero where the figures come near it.
      ...(chart.log_y || (low > 0 && low > 0.5 * high) ? [] : [Plot.ruleY([0], { stroke: 'var(--rule)' })]),
      ...marks,
      Plot.tip(
        all,
        Plot.pointer({
          x: 'x',
          y: 'y',
          title: (point: Point) =>
            `${point.name}\n${chart.x_label} ${said(point.x, x)}\n${chart.y_label} ${said(point.y, y)}`,
          ...tipStyle,
        }),
      ),
    ],
  });
}

/** One picture with a name: the names Plot gives to its groups belong to no role. */
function nameless(svg: Element, title: string): Element {
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-label', title);
  for (const group of svg.querySelectorAll('g[aria-label]')) group.removeAttribute('aria-label');
  return svg;
}
