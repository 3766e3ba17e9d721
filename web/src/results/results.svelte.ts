// What the engine says about the enquiry. A question that cannot be answered leaves the last answer standing.
import type { EngineClient } from '../engine/client';
import type {
  Build,
  Compare,
  DiscStress,
  GearPair,
  Mechanism,
  Problem,
  Prove,
  RequirementLine,
  Size,
} from '../engine/contract';
import type { Doc } from '../enquiry/path';
import type { Remembered } from './memory';

/** How long an answer may take before the page says that work is going on, and how long that stands at least, ms. */
const kPatience = 200;
const kReadable = 400;

export class Results {
  proved = $state.raw<Prove>();
  sized = $state.raw<Size>();
  mechanism = $state.raw<Mechanism>();
  compared = $state.raw<Compare>();
  problems = $state.raw<Problem[]>([]);
  /** The answer to the newest question is still to come. */
  working = $state(false);
  /** An answer is awaited for so long that the page says so, and then for long enough to be read. */
  slow = $state(false);
  /** The engine has answered for the enquiry on the screen, or an earlier one. */
  answered = $state(false);
  /** What is proved was followed in time as well: start, jam, day. */
  whole = $state(false);
  /** From the change of a value to its answer, ms; not of the first one, which includes the engine's start. */
  took = $state<number>();

  #engine: EngineClient;
  #turn = 0;
  #patience: ReturnType<typeof setTimeout> | undefined;
  #slowSince = 0;
  #asked: { enquiry: Doc; inTime: boolean; open: string[] } | undefined;
  #drawn = '';
  #release: (() => void) | undefined;
  #firstAnswer = new Promise<void>((resolve) => (this.#release = resolve));
  #makeBackground: () => EngineClient;
  #second: EngineClient | undefined;
  /** What the engine took for each field, said or assumed. */
  #lines = $derived(
    new Map([
      ...(this.proved?.assumptions ?? []).map((item): [string, RequirementLine] => [
        item.path,
        { ...item, label: item.text, assumed: true },
      ]),
      ...(this.proved?.requirement ?? []).map((line): [string, RequirementLine] => [line.path, line]),
    ]),
  );
  #problemAt = $derived(new Map(this.problems.map((problem) => [problem.path, problem])));

  /**
   * @param makeBackground  a second engine for the long answers, so that the short ones never wait for them; it is
   * started after the first proof stands, so that it does not slow that down
   */
  constructor(engine: EngineClient, makeBackground: () => EngineClient) {
    this.#engine = engine;
    this.#makeBackground = makeBackground;
  }

  /** Answers kept from before, until the engine has its own. */
  show(remembered: Remembered): void {
    if (this.answered) return;
    this.proved = remembered.proved;
    if (remembered.mechanism) this.mechanism = remembered.mechanism;
  }

  get #background(): EngineClient {
    return (this.#second ??= this.#makeBackground());
  }

  /** The findings on the screen are those of earlier values. */
  get stale(): boolean {
    return this.problems.length > 0;
  }
  /** @param quantity  what the field holds; a line of another quantity under the same path is another figure */
  line(path: string, quantity: string): RequirementLine | undefined {
    const line = this.#lines.get(path);
    return line?.value.quantity === quantity ? line : undefined;
  }
  problem(path: string): Problem | undefined {
    return this.#problemAt.get(path);
  }
  get build(): Build | undefined {
    return this.proved?.build;
  }

  /**
   * @param inTime  follow start, jam and the day in time, for the charts of opened findings, and rank what is worth
   * asking: a good part of a proof's work. No verdict, figure or margin hangs on it. Without it the last questions stand.
   * @param open  findings whose working is read, `demand` among them: of the others it is not sent
   */
  async prove(enquiry: Doc, inTime: boolean, open: string[] = []): Promise<void> {
    const asked = this.#asked;
    const more = asked?.enquiry === enquiry;
    if (asked && more && (asked.inTime || !inTime) && open.every((id) => asked.open.includes(id))) return;
    this.#asked = { enquiry, inTime: inTime || (more && (asked?.inTime ?? false)), open };
    inTime = this.#asked.inTime;
    const start = performance.now();
    const turn = ++this.#turn;
    if (!this.working) this.#await();
    this.working = true;
    const answer = await this.#engine.latest<Prove>('prove', 'prove', {
      enquiry,
      in_time: inTime,
      questions: inTime,
      working: open,
    });
    if (!answer) return; // a newer question took its place
    this.working = turn !== this.#turn;
    if (this.working) this.#await();
    else this.#rest();
    this.#release?.();
    if (answer.ok) {
      this.proved = inTime ? answer.value : { ...answer.value, questions: this.proved?.questions ?? [] };
      this.whole = inTime;
      this.problems = [];
      if (this.answered && !more) this.took = performance.now() - start;
      this.answered = true;
    } else {
      this.problems = answer.errors;
      if (answer.errors.some((problem) => problem.kind === 'internal')) this.#asked = undefined; // may be asked again
    }
  }

  /** From now on an answer is awaited. Values that are dragged get one every moment: then nobody waits. */
  #await(): void {
    clearTimeout(this.#patience);
    if (this.slow) return;
    this.#patience = setTimeout(() => {
      this.slow = true;
      this.#slowSince = performance.now();
    }, kPatience);
  }
  #rest(): void {
    clearTimeout(this.#patience);
    if (!this.slow) return;
    const left = this.#slowSince + kReadable - performance.now();
    this.#patience = setTimeout(() => (this.slow = false), Math.max(0, left));
  }

  async size(enquiry: Doc): Promise<void> {
    await this.#firstAnswer;
    const answer = await this.#background.latest<Size>('size', 'size', { enquiry });
    if (answer?.ok) this.sized = answer.value;
  }

  /** Torque at the driven shaft that the proof stands for. */
  get torque(): number | undefined {
    return fact(this.proved, 'output_torque');
  }

  /** Stress all over the first disc of the last stage at one crank angle. */
  async stress(crank: number): Promise<DiscStress | undefined> {
    const { build, torque } = this;
    if (!build || torque === undefined) return undefined;
    const input = { build, torque, crank_angle: crank };
    const answer = await this.#background.latest<DiscStress>('stress', 'disc_stress', input);
    return answer?.ok ? answer.value : undefined;
  }

  /** Teeth of the drive in service with their loads; of a helical unit for the same duty where it has none to draw. */
  async gears(enquiry: Doc): Promise<GearPair | undefined> {
    const ask = (doc: Doc) => this.#background.latest<GearPair>('gears', 'gear_pair', { enquiry: doc });
    let answer = await ask(enquiry);
    if (answer && !answer.ok && answer.errors.every((problem) => problem.path === 'stage')) {
      const { incumbent: _worm, ...duty } = enquiry;
      answer = await ask(duty);
    }
    return answer?.ok ? answer.value : undefined;
  }

  /** The build beside the drive in service. */
  async compare(enquiry: Doc): Promise<void> {
    await this.#firstAnswer;
    const answer = await this.#background.latest<Compare>('compare', 'compare', { enquiry });
    if (answer?.ok) this.compared = answer.value;
  }

  /** The mechanism of the build that was proved, under the torque it was proved for. */
  async draw(proved: Prove): Promise<void> {
    const torque = fact(proved, 'output_torque');
    if (!torque) return;
    const input = { build: proved.build, torque };
    const text = JSON.stringify(input);
    if (text === this.#drawn) return; // another value changed, not what turns
    this.#drawn = text;
    const answer = await this.#background.latest<Mechanism>('mechanism', 'mechanism', input);
    if (answer?.ok) this.mechanism = answer.value;
    else if (this.#drawn === text) this.#drawn = '';
  }
}

/** A figure of the drive by its id, SI. */
function fact(proved: Prove | undefined, id: string): number | undefined {
  const value = proved?.drive.find((item) => item.id === id)?.value;
  return typeof value === 'object' ? value.value : undefined;
}
