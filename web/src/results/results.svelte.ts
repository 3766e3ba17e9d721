// What the engine says about the enquiry. A question that cannot be answered leaves the last answer standing.
import type { EngineClient } from '../engine/client';
import type { Build, DiscStress, Gears, Mechanism, Problem, Prove, RequirementLine, Size } from '../engine/contract';
import type { Doc } from '../enquiry/path';

export class Results {
  proved = $state.raw<Prove>();
  sized = $state.raw<Size>();
  mechanism = $state.raw<Mechanism>();
  problems = $state.raw<Problem[]>([]);
  working = $state(false);
  /** From the change of a value to its answer, ms. */
  took = $state<number>();

  #engine: EngineClient;
  #background: EngineClient;
  #lines = $derived(new Map((this.proved?.requirement ?? []).map((line) => [line.path, line])));
  #problemAt = $derived(new Map(this.problems.map((problem) => [problem.path, problem])));

  /** @param background  a second engine for the long answers, so that the short ones never wait for them */
  constructor(engine: EngineClient, background: EngineClient) {
    this.#engine = engine;
    this.#background = background;
  }

  /** The findings on the screen are those of earlier values. */
  get stale(): boolean {
    return this.problems.length > 0;
  }
  line(path: string): RequirementLine | undefined {
    return this.#lines.get(path);
  }
  problem(path: string): Problem | undefined {
    return this.#problemAt.get(path);
  }
  get build(): Build | undefined {
    return this.proved?.build;
  }

  async prove(enquiry: Doc): Promise<void> {
    const start = performance.now();
    this.working = true;
    const answer = await this.#engine.latest<Prove>('prove', 'prove', { enquiry });
    if (!answer) return;
    this.working = false;
    if (answer.ok) {
      this.proved = answer.value;
      this.problems = [];
      this.took = performance.now() - start;
    } else {
      this.problems = answer.errors;
    }
  }

  async size(enquiry: Doc): Promise<void> {
    const answer = await this.#background.latest<Size>('size', 'size', { enquiry });
    if (answer?.ok) this.sized = answer.value;
  }

  /** Torque at the driven shaft that the proof stands for. */
  get torque(): number | undefined {
    return torqueOf(this.proved);
  }

  /** Stress all over the first disc of the last stage at one crank angle. */
  async stress(crank: number): Promise<DiscStress | undefined> {
    const { build, torque } = this;
    if (!build || torque === undefined) return undefined;
    const input = { build, torque, crank_angle: crank };
    const answer = await this.#background.latest<DiscStress>('stress', 'disc_stress', input);
    return answer?.ok ? answer.value : undefined;
  }

  /** A helical pair for the same duty. */
  async gears(): Promise<Gears | undefined> {
    const torque = this.torque;
    const speed = (path: string) => this.line(path)?.value.value;
    const input = { torque, output_speed: speed('demand.speed'), input_speed: speed('drive.input_speed') };
    const answer = await this.#background.latest<Gears>('gears', 'gears', input);
    return answer?.ok ? answer.value : undefined;
  }

  /** The mechanism of the build that was proved, under the torque it was proved for. */
  async draw(proved: Prove): Promise<void> {
    const torque = torqueOf(proved);
    if (torque === undefined) return;
    const answer = await this.#background.latest<Mechanism>('mechanism', 'mechanism', { build: proved.build, torque });
    if (answer?.ok) this.mechanism = answer.value;
  }
}

const torqueOf = (proved: Prove | undefined): number | undefined =>
  proved?.requirement.find((line) => line.value.quantity === 'torque')?.value.value;
