// The one enquiry on the screen: plain JSON as people write it, with a past to go back to, kept over a reload.
import demo from '../generated/demo.json';
import { get, put, type Doc, type Json } from './path';

interface Moment {
  doc: Doc;
  /** What the step away from this moment changed, in words. */
  what: string;
}
interface Kept {
  doc: Doc;
  past: Moment[];
}

const kKey = 'lobewise.enquiry.1';
const kMostMoments = 60;

export class EnquiryStore {
  doc = $state.raw<Doc>({});
  #past = $state.raw<Moment[]>([]);
  #future = $state.raw<Moment[]>([]);
  #group = '';
  #storage: Storage | undefined;
  #saving: ReturnType<typeof setTimeout> | undefined;

  constructor(storage?: Storage) {
    this.#storage = storage;
    const kept = this.#read();
    this.doc = kept?.doc ?? (demo as Doc);
    this.#past = kept?.past ?? [];
  }

  get undoes(): string | undefined {
    return this.#past.at(-1)?.what;
  }
  get redoes(): string | undefined {
    return this.#future.at(-1)?.what;
  }
  value(path: string): Json | undefined {
    return get(this.doc, path);
  }

  /** @param group  changes with the same non-empty group in a row are one step back, such as those of one drag */
  set(path: string, value: Json | undefined, what: string, group = ''): void {
    this.replace(put(this.doc, path, value), what, group);
  }

  replace(doc: Doc, what: string, group = ''): void {
    if (JSON.stringify(doc) === JSON.stringify(this.doc)) return;
    const last = this.#past.at(-1);
    if (group !== '' && group === this.#group && last) {
      this.#past = [...this.#past.slice(0, -1), { ...last, what }];
    } else {
      this.#past = [...this.#past, { doc: this.doc, what }].slice(-kMostMoments);
    }
    this.#group = group;
    this.#future = [];
    this.doc = doc;
    this.#keep();
  }

  /** The next change is a step of its own. */
  endGroup(): void {
    this.#group = '';
  }

  undo(): void {
    const moment = this.#past.at(-1);
    if (!moment) return;
    this.#past = this.#past.slice(0, -1);
    this.#future = [...this.#future, { doc: this.doc, what: moment.what }];
    this.#go(moment.doc);
  }

  redo(): void {
    const moment = this.#future.at(-1);
    if (!moment) return;
    this.#future = this.#future.slice(0, -1);
    this.#past = [...this.#past, { doc: this.doc, what: moment.what }];
    this.#go(moment.doc);
  }

  #go(doc: Doc): void {
    this.#group = '';
    this.doc = doc;
    this.#keep();
  }

  #read(): Kept | undefined {
    try {
      const kept = JSON.parse(this.#storage?.getItem(kKey) ?? 'null') as Kept | null;
      return kept !== null && typeof kept.doc === 'object' && Array.isArray(kept.past) ? kept : undefined;
    } catch {
      return undefined; // an older or damaged record; the demo stands in
    }
  }

  #keep(): void {
    clearTimeout(this.#saving);
    this.#saving = setTimeout(() => this.flush(), 150);
  }

  /** Writes now; called when the page goes away. */
  flush(): void {
    clearTimeout(this.#saving);
    const kept: Kept = { doc: this.doc, past: this.#past };
    try {
      this.#storage?.setItem(kKey, JSON.stringify(kept));
    } catch {
      // Storage is full or refused: the page works on, it only will not remember.
    }
  }
}
