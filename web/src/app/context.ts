// What every component may need, handed down once.
import { getContext, setContext } from 'svelte';
import type { EngineClient } from '../engine/client';
import type { Editing } from '../enquiry/editing.svelte';
import type { EnquiryStore } from '../enquiry/store.svelte';
import type { Results } from '../results/results.svelte';
import type { Settings } from './settings.svelte';

export interface Workspace {
  engine: EngineClient;
  enquiry: EnquiryStore;
  editing: Editing;
  results: Results;
  settings: Settings;
}
const kKey = Symbol('workspace');

export const share = (workspace: Workspace): Workspace => setContext(kKey, workspace);
export const workspace = (): Workspace => getContext<Workspace>(kKey);
