import type { Build, Candidate } from '../engine/contract';
import type { Doc } from '../enquiry/path';
import type { EnquiryStore } from '../enquiry/store.svelte';
import { t } from '../text/catalogue';

/** Names a build; two builds with the same key are the same. */
export const keyOf = (build: Build): string =>
  [build.first_frame, build.first_lobes, build.frame, build.lobes].filter((part) => part !== undefined).join('/');

/** Puts a candidate under proof; undefined leaves the choice to the engine. */
export function chooseBuild(enquiry: EnquiryStore, candidate: Candidate | undefined): void {
  const what = t('edit.change', { label: t('candidates.build'), value: candidate?.build_name ?? t('candidates.auto') });
  enquiry.set('build', candidate && ({ ...candidate.build } as Doc), what);
}
