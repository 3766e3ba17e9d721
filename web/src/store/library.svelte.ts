// Which enquiry of the library the page works on, and what the library holds.
import type { EnquiryStore } from '../enquiry/store.svelte';
import type { Doc } from '../enquiry/path';
import { Door, Refusal, type Head, type Opened, type Page, type Remade, type Session } from './door';
import { say } from './words';

/** What the page works on; kept over a reload, as the enquiry itself is. */
interface Current {
  number: number;
  version: number;
  revision: number;
  revisions: number;
  /** The enquiry as it was saved. */
  saved: string;
}
const kKey = 'lobewise.kept.1';

export class Library {
  session = $state.raw<Session>();
  page = $state.raw<Page>();
  current = $state.raw<Current>();
  opened = $state.raw<Opened>();
  /** The revision that was opened, beside a new proof of it. */
  remade = $state.raw<{ revision: number; answer: Remade }>();
  message = $state('');
  conflict = $state(false);
  busy = $state(false);
  query = $state({ text: '', state: '', due: '' });

  readonly door = new Door();
  #enquiry: EnquiryStore;
  #take: (doc: Doc, what: string) => void;
  #storage: Storage;

  constructor(enquiry: EnquiryStore, take: (doc: Doc, what: string) => void, storage: Storage) {
    this.#enquiry = enquiry;
    this.#take = take;
    this.#storage = storage;
    try {
      this.current = (JSON.parse(storage.getItem(kKey) ?? 'null') as Current | null) ?? undefined;
    } catch {
      this.current = undefined;
    }
  }

  get signedIn(): boolean {
    return this.session?.person !== undefined;
  }
  get writes(): boolean {
    return this.session?.person !== undefined && this.session.person.role !== 'reader';
  }
  get changed(): boolean {
    return this.current !== undefined && this.current.saved !== JSON.stringify(this.#enquiry.doc);
  }

  async start(): Promise<void> {
    this.session = await this.door.session();
    if (this.signedIn) await this.refresh();
  }
  signIn(name: string, password: string): Promise<boolean> {
    return this.#try(async () => {
      this.session = await this.door.signIn(name, password);
      await this.#look();
    });
  }
  async signOut(): Promise<void> {
    await this.#try(() => this.door.signOut());
    this.page = this.opened = undefined;
    this.session = await this.door.session();
  }
  refresh(): Promise<boolean> {
    return this.#try(() => this.#look());
  }
  async find(): Promise<void> {
    await this.#try(() => this.#list());
  }

  open(number: number, revision = 0): Promise<boolean> {
    return this.#try(async () => {
      const opened = await this.door.call<Opened>('open', { number, revision });
      this.#take(opened.input.enquiry, say('opened', { number, revision: opened.revision.revision }));
      this.opened = opened;
      this.remade = undefined;
      this.#work(opened.head, opened.revision.revision, opened.input.enquiry);
      void this.#beside(number, opened.revision.revision);
    });
  }
  /** @param asNew  an enquiry of its own, whatever the page works on */
  save(note: string, asNew: boolean): Promise<boolean> {
    const enquiry = this.#enquiry.doc;
    const { current } = this;
    return this.#try(async () => {
      const head =
        asNew || !current
          ? await this.door.call<Head>('save', { enquiry, note })
          : await this.door.call<Head>('revise', {
              number: current.number,
              version: current.version,
              enquiry,
              note,
            });
      this.#work(head, head.revisions, enquiry);
      await this.#look();
    });
  }
  step(state: string, followUp: string, note: string): Promise<boolean> {
    const { current } = this;
    if (!current) return Promise.resolve(false);
    return this.#try(async () => {
      const head = await this.door.call<Head>('step', {
        number: current.number,
        version: current.version,
        state,
        follow_up: followUp,
        note,
      });
      this.#keep({ ...current, version: head.version });
      await this.#look();
    });
  }
  letGo(): void {
    this.opened = undefined;
    this.remade = undefined;
    this.conflict = false;
    this.message = '';
    this.#keep(undefined);
  }

  /** What the proof that was saved says and a new one does not; without an answer the revision stands alone. */
  async #beside(number: number, revision: number): Promise<void> {
    const answer = await this.door.call<Remade>('remake', { number, revision }).catch(() => undefined);
    const open = this.current;
    if (answer && open?.number === number && open.revision === revision) this.remade = { revision, answer };
  }
  #work(head: Head, revision: number, doc: Doc): void {
    const { number, version, revisions } = head;
    this.#keep({ number, version, revision, revisions, saved: JSON.stringify(doc) });
  }
  #keep(current: Current | undefined): void {
    this.current = current;
    try {
      if (current) this.#storage.setItem(kKey, JSON.stringify(current));
      else this.#storage.removeItem(kKey);
    } catch {
      // Storage is full or refused: after a reload the page asks to save as a new enquiry.
    }
  }
  async #list(): Promise<void> {
    const { text, state, due } = this.query;
    const asked = { text, ...(state && { state }), ...(due && { due }), limit: 30 };
    this.page = await this.door.call<Page>('list', asked);
  }
  /** The list, and the enquiry the page works on as it is now; its values on the page stay as they are. */
  async #look(): Promise<void> {
    await this.#list();
    if (this.current) this.opened = await this.door.call<Opened>('open', { number: this.current.number });
  }
  /** Runs it; what goes wrong is told. */
  async #try(action: () => Promise<void>): Promise<boolean> {
    this.busy = true;
    this.message = '';
    this.conflict = false;
    try {
      await action();
      return true;
    } catch (error) {
      this.message = error instanceof Error ? error.message : String(error);
      if (error instanceof Refusal) {
        this.conflict = error.trouble === 'conflict';
        if (error.trouble === 'signed_out') this.session = (await this.door.session()) ?? this.session;
        if (error.trouble === 'not_found') this.letGoOf(this.message);
      }
      return false;
    } finally {
      this.busy = false;
    }
  }
  /** The library no longer has what the page works on: another library, or a restored one. */
  private letGoOf(message: string): void {
    this.letGo();
    this.message = message;
  }
}
