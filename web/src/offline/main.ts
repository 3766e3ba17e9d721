import { mount } from 'svelte';
import '../style/tokens.css';
import '../style/base.css';
import '../style/print.css';
import { readHandover } from './handover';
import Offline from './Offline.svelte';
import { say } from './words';

const target = document.getElementById('app')!;
const handover = readHandover(document.getElementById('lobewise-handover')?.textContent ?? '');
target.replaceChildren();
if (handover) {
  mount(Offline, { target, props: { handover } });
} else {
  const note = document.createElement('p');
  note.textContent = `${say('empty')}: ${say('emptyHelp')}`;
  target.append(note);
}
