// The page against the engine itself: answers have the shapes the page expects, every field has its place in the
// sentences, and numbers are shown as the engine shows them.
// @vitest-environment node
import { beforeAll, describe, expect, it } from 'vitest';
import * as v from 'valibot';
import { loadEngine } from '../../tools/engine_in_node.mjs';
import { passages } from '../enquiry/sentences';
import { field } from '../enquiry/schema';
import demo from '../generated/demo.json';
import { displayUnit, figure, fromSi } from '../quantity/units';
import units from '../generated/units.json';
import * as contract from './contract';

let ask: Awaited<ReturnType<typeof loadEngine>>;
beforeAll(async () => {
  ask = await loadEngine();
}, 30_000);

describe('answers of the engine', () => {
  it('prove, mechanism', { timeout: 60_000 }, () => {
    const proved = v.parse(contract.prove, ask('prove', { enquiry: demo }));
    expect(proved.findings.length).toBeGreaterThan(8);
    const torque = proved.drive.find((fact) => fact.id === 'output_torque')?.value as contract.Quantity;
    const drawn = v.parse(contract.mechanism, ask('mechanism', { build: proved.build, torque: torque.value }));
    v.parse(contract.discStress, ask('disc_stress', { build: proved.build, torque: torque.value, crank_angle: 0.3 }));
    const helical = { ...demo, incumbent: { kind: 'helical_in_line' } };
    v.parse(contract.gearPair, ask('gear_pair', { enquiry: helical }));
    const { incumbent: _worm, ...unknown } = demo;
    expect(v.parse(contract.gearPair, ask('gear_pair', { enquiry: unknown })).kind_assumed).toBe(true);
    expect(v.parse(contract.compare, ask('compare', { enquiry: unknown })).axes).toEqual([]);
    const compared = v.parse(contract.compare, ask('compare', { enquiry: demo }));
    expect(compared.axes.length).toBeGreaterThan(4);
    expect(compared.cases.length).toBeGreaterThan(0);
    const stage = drawn.stages.at(-1)!;
    expect(stage.discs).toHaveLength(stage.geometry.discs);
    expect(stage.discs[0]!.forces[0]).toHaveLength(stage.geometry.lobes + 1);
    // Every step shows what it stands on: a formula that the engine set, or the words of a table or a run.
    const steps = [...proved.findings.flatMap((finding) => finding.working ?? []), ...(proved.demand_working ?? [])];
    expect(steps.length).toBeGreaterThan(100);
    for (const step of steps) expect(step.mathml ?? step.formula, step.symbol).not.toBe('');
    const set = steps.filter((step) => step.mathml !== undefined);
    expect(set.length / steps.length).toBeGreaterThan(0.9);
    // Only what is read is sent.
    const some = v.parse(contract.prove, ask('prove', { enquiry: demo, working: ['contact'] }));
    expect(some.findings.filter((finding) => finding.working).map((finding) => finding.id)).toEqual(['contact']);
    expect(some.demand_working).toBeUndefined();
  });
  it('size', { timeout: 60_000 }, () => {
    const sized = v.parse(contract.size, ask('size', { enquiry: demo }));
    expect(sized.candidates.length).toBeGreaterThan(0);
  });
});

describe('sentences', () => {
  it('name only fields that exist, and show every field of every machine', () => {
    const machines = field('machine')!.fields;
    expect(machines.length).toBeGreaterThan(10);
    for (const key of machines) {
      const record = `machine.${key}`;
      const passage = passages({ machine: { [key]: {} } }).find((item) => item.record === record);
      expect(passage, record).toBeDefined();
      const shown = new Set([
        ...passage!.pieces.flatMap((piece) => ('path' in piece ? [piece.path] : [])),
        ...passage!.rest,
      ]);
      for (const name of field(record)!.fields) expect(shown, record).toContain(`${record}.${name}`);
      expect(passage!.pieces.length, `${record} has no sentence of its own`).toBeGreaterThan(3);
    }
  });
});

describe('numbers', () => {
  it('are written as the engine writes them', () => {
    for (const [quantity, texts] of [
      ['power', ['7.5 hp', '11 kW', '1234.5 kW']],
      ['length', ['0.0123 mm', '14 m', '3/8 in']],
      ['temperature', ['-10 °C', '80 °F']],
      ['pressure', ['1067 MPa', '154800 psi']],
      ['torque', ['910 N·m', '25 in-lb']],
    ] as const)
      for (const text of texts) {
        const answer = ask('quantity', { items: [{ text, quantity }] }) as {
          values: { value: number; us: string; si: string }[];
        };
        const read = answer.values[0]!;
        for (const system of ['si', 'us'] as const) {
          const unit = displayUnit(quantity, system);
          if (!read[system].endsWith(` ${unit.name}`)) continue; // the engine took a neighbouring unit
          const shown = figure(fromSi(read.value, unit), quantity).replace('\u2212', '-');
          expect(`${shown} ${unit.name}`, text).toBe(read[system]);
        }
      }
  });
  it('have a display unit for every quantity', () => {
    for (const quantity of Object.keys(units)) expect(displayUnit(quantity, 'us')).toBeDefined();
  });
});
