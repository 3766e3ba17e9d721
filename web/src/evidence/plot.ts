// Observable Plot in a part of its own: loaded when the first chart is opened.
import * as Plot from '@observablehq/plot';
import type { Chart } from '../engine/contract';
import { withUnit, type System } from '../quantity/units';

const tones = ['var(--glass)', 'var(--madder)', 'var(--amber)', 'var(--ink-3)', 'var(--ink)'];

export function draw(chart: Chart, system: System, width: number): Element {
  const x = chart.x_unit[system];
  const y = chart.y_unit[system];
  const label = (text: string, unit: string) => (unit === '' ? text : `${text}, ${withUnit('', unit).trim()}`);
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
  const svg = Plot.plot({
    width,
    height: Math.round(Math.min(300, Math.max(220, width * 0.5))),
    marginTop: 30,
    marginLeft: 60,
    marginBottom: 42,
    marginRight: 16,
    style: {
      background: 'transparent',
      color: 'var(--ink-2)',
      fontFamily: 'var(--sans)',
      fontSize: '12px',
      overflow: 'visible',
    },
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
  // One picture with a name: the names Plot gives to its groups belong to no role.
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-label', chart.title);
  for (const group of svg.querySelectorAll('g[aria-label]')) group.removeAttribute('aria-label');
  return svg;
}
