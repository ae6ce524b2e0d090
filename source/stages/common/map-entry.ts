import type {Entry} from '../../session/entry/entry.ts';

/** The same entry about something made from its value. */
export function mapEntry<A, B>(entry: Entry<A>, make: (value: A) => B): Entry<B> {
	return entry.kind === 'refused' ? entry : {...entry, value: make(entry.value)};
}
