// Observable Plot in a part of its own: loaded when the first chart is opened.
import * as Plot from '@observablehq/plot';
import type { Chart } from '../engine/contract';
import { withUnit, type System } from '../quantity/units';

const tones = ['var(--glass)', 'var(--madder)', 'var(--amber)', 'var(--ink-3)', 'var(--ink)'];

const style = {
  background: 'transparent',
  color: 'var(--ink-2)',
  fontFamily: 'var(--sans)',
  fontSize: '12px',
  overflow: 'visible',
};
const label = (text: string, unit: string) => (unit === '' ? text : `${text}, ${withUnit('', unit).trim()}`);

/** Bars that stand for named things rather than for places on an axis: one or two a thing. */
const named = (chart: Chart): boolean =>
  chart.bars && chart.series.every((series) => series.dashed || series.x.length <= 2);

export function draw(chart: Chart, system: System, width: number): Element {
  return nameless(named(chart) ? drawNamed(chart, system, width) : drawCurves(chart, system, width), chart.title);
}

interface Bar {
  name: string;
  index: number;
  value: number;
}

/** One line of bars for each thing, its name beside it. */
function drawNamed(chart: Chart, system: System, width: number): Element {
  const y = chart.y_unit[system];
  const at = (value: number | undefined) => ((value ?? NaN) - y.offset) / y.factor;
  const bars = chart.series
    .filter((series) => !series.dashed)
    .flatMap((series) => series.y.map((value, index): Bar => ({ name: series.name, index, value: at(value) })));
  const limits = chart.series
    .filter((series) => series.dashed)
    .map((series) => ({ name: series.name, value: at(series.y[0]) }));
  const floor = chart.log_y ? Math.min(...[...bars, ...limits].map((bar) => bar.value)) / 3 : 0;
  const names = [...new Set(bars.map((bar) => bar.name))];
  const pairs = bars.some((bar) => bar.index > 0);
  const left = Math.min(210, width * 0.42);
  return Plot.plot({
    width,
    height: 62 + names.length * (pairs ? 34 : 27),
    marginTop: limits.length > 0 ? 22 : 8,
    marginLeft: left,
    marginBottom: 40,
    marginRight: 24,
    style,
    x: {
      type: chart.log_y ? 'log' : 'linear',
      label: label(chart.y_label, y.unit),
      labelArrow: 'none',
      grid: true,
      ticks: Math.max(3, Math.round((width - left) / 90)),
      ...(chart.log_y ? {} : { zero: true, nice: true }),
    },
    y: { axis: null, domain: pairs ? [0, 1] : [0], padding: 0.12 },
    fy: { domain: names, label: null, axis: null, padding: 0.22 },
    marks: [
      Plot.axisFy({ anchor: 'left', label: null, lineWidth: left / 12.5 }),
      Plot.barX(bars, {
        fy: 'name',
        y: 'index',
        x1: () => floor,
        x2: 'value',
        fill: (bar: Bar) => tones[bar.index === 0 ? 0 : 2],
        title: (bar: Bar) => `${bar.name}\n${withUnit(bar.value.toPrecision(4), y.unit)}`,
        tip: { fill: 'var(--leaf)', stroke: 'var(--rule)' },
      }),
      ...(chart.log_y ? [] : [Plot.ruleX([0], { stroke: 'var(--rule)' })]),
      Plot.ruleX(limits, { x: 'value', stroke: 'var(--madder)', strokeDasharray: '5 4', strokeWidth: 1.5 }),
    ],
  });
}

function drawCurves(chart: Chart, system: System, width: number): Element {
  const x = chart.x_unit[system];
  const y = chart.y_unit[system];
  const marks = chart.series.flatMap((series, index) => {
    const points = series.x.map((value, at) => ({
      x: (value - x.offset) / x.factor,
      y: ((series.y[at] ?? NaN) - y.offset) / y.factor,
      name: series.name,
    }));
    const stroke = tones[index % tones.length]!;
    if (chart.bars && !series.dashed) {
      const thick = Math.max(2, Math.min(28, (width - 90) / Math.max(1, points.length * 1.6)));
      return [Plot.ruleX(points, { x: 'x', y1: 0, y2: 'y', stroke, strokeWidth: thick, strokeLinecap: 'butt' })];
    }
    return [
      Plot.line(points, {
        x: 'x',
        y: 'y',
        stroke,
        strokeWidth: series.dashed ? 1.5 : 2,
        ...(series.dashed ? { strokeDasharray: '5 4' } : {}),
      }),
      ...(points.length === 1 ? [Plot.dot(points, { x: 'x', y: 'y', fill: stroke })] : []),
    ];
  });
  const all = chart.series.flatMap((series) =>
    series.x.map((value, at) => ({
      x: (value - x.offset) / x.factor,
      y: ((series.y[at] ?? NaN) - y.offset) / y.factor,
      name: series.name,
    })),
  );
  return Plot.plot({
    width,
    height: Math.round(Math.min(300, Math.max(220, width * 0.5))),
    marginTop: 30,
    marginLeft: 60,
    marginBottom: 42,
    marginRight: 16,
    style,
    x: {
      type: chart.log_x ? 'log' : 'linear',
      label: label(chart.x_label, x.unit),
      labelAnchor: 'right',
      labelArrow: 'none',
      nice: false,
    },
    y: {
      type: chart.log_y ? 'log' : 'linear',
      label: label(chart.y_label, y.unit),
      labelArrow: 'none',
      grid: true,
      nice: true,
      zero: chart.bars,
    },
    marks: [
      ...(chart.log_y ? [] : [Plot.ruleY([0], { stroke: 'var(--rule)' })]),
      ...marks,
      Plot.tip(
        all,
        Plot.pointer({
          x: 'x',
          y: 'y',
          title: (point: { x: number; y: number; name: string }) =>
            `${point.name}\n${chart.x_label} ${withUnit(point.x.toPrecision(4), x.unit)}\n${chart.y_label} ${withUnit(point.y.toPrecision(4), y.unit)}`,
          fill: 'var(--leaf)',
          stroke: 'var(--rule)',
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
