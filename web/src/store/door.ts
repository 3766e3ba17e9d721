// The library behind this page: docs/api.md, `The store behind the server`.
import type { Doc } from '../enquiry/path';
import { say } from './words';

export interface Session {
  store: 'file' | 'team';
  sign_in: boolean;
  states: string[];
  person?: { name: string; role: 'reader' | 'engineer' | 'keeper' };
  token?: string;
}
export interface Head {
  number: number;
  version: number;
  revisions: number;
  title: string;
  customer: string;
  owner: string;
  state: string;
  follow_up: string;
  changed: string;
  changed_by: string;
}
export interface Info {
  revision: number;
  saved: string;
  saved_by: string;
  note: string;
  engine: string;
}
export interface Opened {
  head: Head;
  revision: Info;
  input: { enquiry: Doc };
  revisions: Info[];
  steps: { at: string; person: string; state: string; follow_up: string; note: string }[];
  documents: { revision: number; name: string; size: number }[];
}
/** A check as one of two proofs has it. */
export interface MovedSide {
  figure: { si: string; us: string };
  limit: { si: string; us: string };
  margin: number;
}
/** A saved revision proved again. */
export interface Remade {
  identical: boolean;
  saved_engine: string;
  engine: string;
  moved: {
    before: { build?: string; error?: string };
    after: { build?: string; error?: string };
    turned: { finding: string; before?: string; after?: string }[];
    checks: { finding: string; check: string; before?: MovedSide; after?: MovedSide }[];
  };
}
export interface Page {
  enquiries: Head[];
  total: number;
}
/** What went wrong, in a sentence for people. */
export class Refusal extends Error {
  constructor(
    readonly trouble: string,
    message: string,
  ) {
    super(message);
  }
}

async function ask(path: string, options: RequestInit = {}): Promise<unknown> {
  let response: Response;
  try {
    response = await fetch(path, options);
  } catch {
    throw new Refusal('unreachable', say('unreachable'));
  }
  const answer = (await response.json().catch(() => ({}))) as { errors?: { trouble: string; message: string }[] };
  if (response.ok) return answer;
  const first = answer.errors?.[0];
  if (response.status === 401) throw new Refusal('signed_out', first?.message ?? response.statusText);
  throw new Refusal(first?.trouble ?? String(response.status), first?.message ?? response.statusText);
}

export class Door {
  #token = '';

  /** @returns nothing when no library is kept behind this page */
  async session(): Promise<Session | undefined> {
    let session: Session;
    try {
      // What is not there is not asked for: a browser writes that down as an error of the page.
      const status = (await (await fetch('./status')).json()) as { store?: boolean };
      if (!status.store) return undefined;
      const response = await fetch('./store/session');
      if (!response.ok) return undefined;
      session = (await response.json()) as Session;
    } catch {
      return undefined; // a plain server, or a page on a disk
    }
    this.#token = session.token ?? '';
    return session;
  }
  async signIn(name: string, password: string): Promise<Session> {
    const session = (await this.#post('./store/sign-in', { name, password })) as Session;
    this.#token = session.token ?? '';
    return session;
  }
  async signOut(): Promise<void> {
    await this.#post('./store/sign-out', {});
  }
  async call<Answer>(call: string, input: Record<string, unknown>): Promise<Answer> {
    return (await this.#post('./store', { call, input })) as Answer;
  }
  documentUrl(number: number, document: { revision: number; name: string }): string {
    return `./store/documents/${number}/${document.revision}/${encodeURIComponent(document.name)}`;
  }

  #post(path: string, body: unknown): Promise<unknown> {
    return ask(path, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', 'X-Lobewise-Token': this.#token },
      body: JSON.stringify(body),
    });
  }
}
