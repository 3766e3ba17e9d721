// How this person likes the page; kept over a reload.
import { tidy, type System } from '../quantity/units';

export type Theme = 'auto' | 'light' | 'dark';
interface Kept {
  system: System;
  theme: Theme;
  large: boolean;
}
const kKey = 'lobewise.settings.1';

export class Settings {
  system = $state<System>('si');
  theme = $state<Theme>('auto');
  large = $state(false);

  /** A text of the engine in the units of this page. */
  say(text: Record<System, string> | undefined): string {
    return text === undefined ? '–' : tidy(text[this.system]);
  }

  constructor(storage: Storage) {
    try {
      const kept = JSON.parse(storage.getItem(kKey) ?? '{}') as Partial<Kept>;
      if (kept.system === 'us') this.system = 'us';
      if (kept.theme === 'light' || kept.theme === 'dark') this.theme = kept.theme;
      this.large = kept.large === true;
    } catch {
      // damaged; the defaults stand
    }
    $effect(() => {
      const kept: Kept = { system: this.system, theme: this.theme, large: this.large };
      document.documentElement.dataset['theme'] = kept.theme;
      document.documentElement.dataset['large'] = String(kept.large);
      try {
        storage.setItem(kKey, JSON.stringify(kept));
      } catch {
        // storage refused: not remembered
      }
    });
  }
}
