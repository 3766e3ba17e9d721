import { beforeEach, describe, expect, it } from 'vitest';
import { get, put } from './path';
import { EnquiryStore } from './store.svelte';

describe('fields by path', () => {
  it('reads and writes without touching the original', () => {
    const doc = { site: { altitude: '200 m' } };
    const next = put(doc, 'site.altitude', '300 m');
    expect(get(next, 'site.altitude')).toBe('300 m');
    expect(doc.site.altitude).toBe('200 m');
  });
  it('makes records and lists on the way and takes empty ones away', () => {
    const doc = put({}, 'duty.spectrum[0].torque', '1');
    expect(doc).toEqual({ duty: { spectrum: [{ torque: '1' }] } });
    expect(put({ duty: { spectrum: [{ torque: '1' }] } }, 'duty.spectrum[0]', undefined)).toEqual({});
    expect(put({ site: { place: 'indoors' } }, 'site.place', undefined)).toEqual({});
  });
});

describe('the enquiry and its past', () => {
  beforeEach(() => localStorage.clear());

  it('goes back and forth, and says what it undoes', () => {
    const store = new EnquiryStore();
    store.replace({ title: 'a' }, 'start');
    store.set('title', 'b', 'Title: b');
    expect(store.undoes).toBe('Title: b');
    store.undo();
    expect(store.value('title')).toBe('a');
    expect(store.redoes).toBe('Title: b');
    store.redo();
    expect(store.value('title')).toBe('b');
  });

  it('counts one drag as one step', () => {
    const store = new EnquiryStore();
    store.replace({ title: 'a' }, 'start');
    for (const value of ['1 m', '2 m', '3 m']) store.set('site.altitude', value, value, 'drag');
    store.endGroup();
    store.set('site.altitude', '4 m', '4 m', 'drag');
    store.undo();
    expect(store.value('site.altitude')).toBe('3 m');
    store.undo();
    expect(store.value('site.altitude')).toBeUndefined();
  });

  it('drops the future when something new is written', () => {
    const store = new EnquiryStore();
    store.set('title', 'a', 'a');
    store.undo();
    store.set('title', 'b', 'b');
    expect(store.redoes).toBeUndefined();
  });

  it('is there again after a reload, past and all', () => {
    const store = new EnquiryStore(localStorage);
    store.set('title', 'kept', 'Title: kept');
    store.flush();
    const again = new EnquiryStore(localStorage);
    expect(again.value('title')).toBe('kept');
    again.undo();
    expect(again.value('title')).not.toBe('kept');
  });

  it('takes the demo when the record is damaged, and survives a storage that refuses', () => {
    localStorage.setItem('lobewise.enquiry.1', '{"doc": 3');
    expect(new EnquiryStore(localStorage).value('machine')).toBeDefined();
    const refusing = {
      getItem: () => null,
      setItem: () => {
        throw new Error('full');
      },
    } as unknown as Storage;
    const store = new EnquiryStore(refusing);
    store.set('title', 'x', 'x');
    expect(() => store.flush()).not.toThrow();
  });
});
